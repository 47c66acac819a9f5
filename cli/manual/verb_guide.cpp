#include "cli/manual/verb_guide.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>

namespace shankline {
namespace {

constexpr std::array guides{
    VerbGuide{Verb::cut, "cut", "solve an order, print the numbers, write the sheets as PDF",
              "  shankline cut order.yaml --paper letter -o order.pdf\n"
              "  shankline cut orders/ -o sheets/   # a folder: a PDF for every order in it\n"},
    VerbGuide{Verb::check, "check",
              "solve an order without writing: show errors, cautions and estimates",
              "  shankline check order.yaml\n"
              "  shankline check order.yaml --json\n"
              "  shankline check order.yaml --sampled\n"},
    VerbGuide{Verb::ask, "ask", "ask for the readings on the terminal and write an order",
              "  shankline ask\n"
              "  shankline ask -o m07.yaml\n"},
    VerbGuide{Verb::form, "form",
              "print pages to write the readings on, which show where to take them",
              "  shankline form\n"
              "  shankline form --paper letter -o form.pdf\n"
              "  shankline form --strip   # paper strips of 300 mm to lay along the sole\n"},
    VerbGuide{Verb::explain, "explain",
              "explain a reading: what it is, how to take it, what it changes",
              "  shankline explain\n"
              "  shankline explain heel_front\n"},
    VerbGuide{
        Verb::chart, "chart", "show for each possible cut where the shoe would break",
        "  shankline chart order.yaml                # what each cut would do, as a table\n"
        "  shankline chart order.yaml -o chart.pdf   # the same with the break chart on paper\n"},
    VerbGuide{Verb::rack, "rack",
              "list many orders, one line for each shoe; print labels for the shoes",
              "  shankline rack orders/ -o rack.pdf\n"
              "  shankline rack orders/ --labels labels.pdf\n"},
    VerbGuide{Verb::roster, "roster", "make the orders of many dancers from one table of readings",
              "  shankline roster dancers.csv --common shoe.yaml -o orders/\n"},
    VerbGuide{Verb::compare, "compare",
              "compare left with right, or two orders: what differs, and how surely",
              "  shankline compare order.yaml                  # left against right\n"
              "  shankline compare order.yaml -o overlay.pdf   # both boards laid over each other\n"
              "  shankline compare spring.yaml autumn.yaml --same-reader\n"
              "  shankline compare orders/                     # whose feet differ?\n"},
    VerbGuide{Verb::next, "next", "after a try: say where to cut next, or to stop",
              "  shankline next order.yaml --foot left --cut 55.5 --seen too-low\n"
              "  shankline next order.yaml --foot left --back 44.5 --seen good\n"},
    VerbGuide{Verb::match, "match", "copy the lines of a worn pair that was right",
              "  shankline match worn.yaml order.yaml\n"
              "  shankline match worn.yaml order.yaml -o order.pdf\n"},
    VerbGuide{Verb::accept, "accept",
              "check a made or delivered pair against its order, line by line",
              "  shankline accept order.yaml --blank -o blank.pdf   # before the pair arrives\n"
              "  shankline accept order.yaml measured.yaml\n"
              "  shankline accept order.yaml measured.yaml -o accepted.pdf\n"},
    VerbGuide{Verb::again, "again", "write a dancer's next order from the last pair that was good",
              "  shankline again M-07                # on standard output\n"
              "  shankline again M-07 -o next.yaml   # a new file\n"},
    VerbGuide{
        Verb::rotation, "rotation",
        "plan which pair to wear on which day, and when to order the next ones",
        "  shankline rotation M-07 --schedule schedule.yaml --lead-time 42\n"
        "  shankline rotation M-07 --schedule schedule.csv -o wall.pdf --calendar m07.ics\n"
        "  shankline rotation --schedule company.csv   # everybody: who needs shoes by when\n"},
    VerbGuide{
        Verb::printer, "printer", "calibrate a printer that prints a little too large or too small",
        "  shankline printer -o sheet.pdf                              # print it, measure it\n"
        "  shankline printer desk --measured 163.4,217.8,272.3,272.2   # what a rule read, mm\n"
        "  shankline cut order.yaml --printer desk                     # sheets for that one\n"
        "  shankline printer --list\n"},
    VerbGuide{Verb::archive, "archive",
              "keep records of cut pairs: for whom, how they were cut, how they did",
              "  shankline archive save order.yaml\n"
              "  shankline archive history M-07\n"},
    VerbGuide{Verb::manual, "manual", "print man pages and shell completions, for installing them",
              "  shankline manual man > shankline.1\n"
              "  shankline manual bash > shankline.bash\n"},
    VerbGuide{Verb::schema, "schema",
              "print the JSON Schemas of the files and results, for other programs",
              "  shankline schema order > order.schema.json\n"
              "  shankline schema solution > solution.schema.json\n"},
    VerbGuide{Verb::config, "config", "show the settings in effect, and where each one comes from",
              "  shankline config\n"},
    VerbGuide{Verb::page, "page", "measure, mark and try in a browser, without a terminal",
              "  shankline page --open\n"},
    VerbGuide{Verb::help, "help", "show this help, or the help of a verb",
              "  shankline help cut\n"},
};

} // namespace

std::span<const VerbGuide> verb_guides() {
  return guides;
}

const VerbGuide& verb_guide(Verb verb) {
  const auto found = std::find_if(guides.begin(), guides.end(),
                                  [verb](const VerbGuide& guide) { return guide.verb == verb; });
  if (found == guides.end()) throw std::logic_error("verb without a guide");
  return *found;
}

const VerbGuide* verb_guide(std::string_view name) {
  const auto found = std::find_if(guides.begin(), guides.end(),
                                  [name](const VerbGuide& guide) { return guide.name == name; });
  return found == guides.end() ? nullptr : &*found;
}

} // namespace shankline
