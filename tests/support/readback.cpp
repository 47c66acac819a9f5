#include "tests/support/readback.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "tests/support/process.hpp"

namespace shankline::tests {
namespace {

using nlohmann::json;

std::string said_by(const std::vector<std::string>& words) {
  Finished finished = run(words);
  // 3: qpdf had only warnings; what they are is told by its check.
  if (finished.exit_code != 0 && finished.exit_code != 3)
    throw std::runtime_error(words.front() + " on " + words.back() + ": " + finished.err);
  return std::move(finished.out);
}

std::string from_base64(std::string_view text) {
  constexpr std::string_view digits =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string bytes;
  std::uint32_t bits = 0;
  int count = 0;
  for (const char letter : text) {
    const std::size_t value = digits.find(letter);
    if (value == std::string_view::npos) continue; // the padding
    bits = (bits << 6 | static_cast<std::uint32_t>(value)) & 0xffffff;
    count += 6;
    if (count >= 8) {
      count -= 8;
      bytes += static_cast<char>(bits >> count & 0xff);
    }
  }
  return bytes;
}

/// The objects of a file as qpdf decodes them.
class Objects {
public:
  explicit Objects(json file) : file_(std::move(file)) {}

  const json& pages() const { return file_.at("pages"); }
  const json& catalogue() const { return resolved(all().at("trailer").at("value").at("/Root")); }
  const json& resolved(const json& value) const {
    if (!value.is_string() || !value.get_ref<const std::string&>().ends_with(" R")) return value;
    return object(value).at("value");
  }
  std::string stream(const json& reference) const {
    return from_base64(object(reference).at("stream").at("data").get<std::string>());
  }
  /// From the page or what it inherits it from; null when absent.
  const json& inherited(const json& page, const char* key) const {
    static const json none;
    const json* node = &page;
    while (!node->contains(key)) {
      if (!node->contains("/Parent")) return none;
      node = &resolved(node->at("/Parent"));
    }
    return resolved(node->at(key));
  }

private:
  const json& all() const { return file_.at("qpdf").at(1); }
  const json& object(const json& reference) const {
    return all().at("obj:" + reference.get<std::string>());
  }

  json file_;
};

PaperBox box_of(const json& corners) {
  const auto side = [&corners](std::size_t index) {
    return corners.at(index).get<double>() * mm_per_point;
  };
  return {{side(0), side(1)}, {side(2), side(3)}};
}

PaperPage read_page(const Objects& objects, const json& entry) {
  std::string operators;
  for (const json& reference : entry.at("contents"))
    operators += objects.stream(reference) + "\n";
  PaperPage page = read_content(operators);

  const json& dictionary = objects.resolved(entry.at("object"));
  page.media = box_of(objects.inherited(dictionary, "/MediaBox"));
  if (const json& turn = objects.inherited(dictionary, "/Rotate");
      !turn.is_null() && turn.get<int>() != 0)
    page.faults.push_back("the page is turned by " + turn.dump() + " degrees");
  if (dictionary.contains("/UserUnit")) page.faults.push_back("the page has a unit of its own");
  for (const char* name : {"/CropBox", "/TrimBox", "/BleedBox", "/ArtBox"})
    if (const json& box = objects.inherited(dictionary, name);
        !box.is_null() && box != objects.inherited(dictionary, "/MediaBox"))
      page.faults.push_back(std::string(name) + " differs from the MediaBox");
  return page;
}

} // namespace

PaperDocument read_document(const std::filesystem::path& pdf) {
  PaperDocument document;
  const Finished check = run({"qpdf", "--check", pdf.string()});
  if (check.exit_code != 0) document.check = check.err.empty() ? "qpdf --check failed" : check.err;

  const Objects objects(json::parse(said_by({"qpdf", "--json=2", "--json-stream-data=inline",
                                             "--decode-level=generalized", pdf.string()})));
  std::size_t number = 0;
  for (const json& entry : objects.pages()) {
    ++number;
    try {
      document.pages.push_back(read_page(objects, entry));
    } catch (const std::exception& error) {
      throw std::runtime_error(pdf.string() + ", page " + std::to_string(number) + ": " +
                               error.what());
    }
  }
  const json& catalogue = objects.catalogue();
  if (catalogue.contains("/ViewerPreferences"))
    document.prints_unscaled =
        objects.resolved(catalogue.at("/ViewerPreferences")).value("/PrintScaling", "") == "/None";
  return document;
}

std::optional<LineKind> kind_of(const PaperStroke& stroke) {
  // The file carries five decimals of a point; styles lie at least 0.01 mm or 0.05 of grey apart.
  constexpr double same_width = 0.002;
  constexpr double same_grey = 0.005;
  constexpr double same_dash = 0.01;
  for (const LineStyle& style : line_styles()) {
    std::vector<double> dash(style.dash.begin(), style.dash.end());
    while (!dash.empty() && dash.back() == 0)
      dash.pop_back();
    const bool dash_fits =
        std::equal(dash.begin(), dash.end(), stroke.dash.begin(), stroke.dash.end(),
                   [](double a, double b) { return std::abs(a - b) <= same_dash; });
    if (dash_fits && std::abs(stroke.width - style.width) <= same_width &&
        std::abs(stroke.grey - style.grey) <= same_grey)
      return style.kind;
  }
  return std::nullopt;
}

std::string page_text(const std::filesystem::path& pdf, std::size_t page) {
  const std::string number = std::to_string(page);
  return said_by(
      {"pdftotext", "-layout", "-enc", "UTF-8", "-f", number, "-l", number, pdf.string(), "-"});
}

namespace {

std::string unescaped(std::string text) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 5> entities{
      {{"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&apos;", "'"}, {"&amp;", "&"}}};
  for (const auto& [name, sign] : entities)
    for (std::size_t at = text.find(name); at != std::string::npos;
         at = text.find(name, at + sign.size()))
      text.replace(at, name.size(), sign);
  return text;
}

double attribute(std::string_view tag, std::string_view name) {
  const std::string start = std::string(name) + "=\"";
  const std::size_t at = tag.find(start);
  if (at == std::string_view::npos)
    throw std::runtime_error("pdftotext gave no " + std::string(name));
  return std::stod(std::string(tag.substr(at + start.size(), 24)));
}

} // namespace

std::vector<Word> page_words(const std::filesystem::path& pdf, std::size_t page) {
  const std::string number = std::to_string(page);
  const std::string boxes = said_by(
      {"pdftotext", "-bbox", "-enc", "UTF-8", "-f", number, "-l", number, pdf.string(), "-"});
  std::vector<Word> words;
  double height = 0;
  for (std::size_t at = 0; (at = boxes.find('<', at)) != std::string::npos; ++at) {
    const std::size_t end = std::min(boxes.find('>', at), boxes.size());
    const std::string_view tag = std::string_view(boxes).substr(at, end - at);
    if (tag.starts_with("<page ")) height = attribute(tag, "height");
    if (!tag.starts_with("<word ")) continue;
    // pdftotext counts from the top.
    const auto corner = [&](const char* x, const char* y) {
      return Point{attribute(tag, x) * mm_per_point, (height - attribute(tag, y)) * mm_per_point};
    };
    words.push_back({unescaped(boxes.substr(end + 1, boxes.find("</word>", end) - end - 1)),
                     {corner("xMin", "yMax"), corner("xMax", "yMin")}});
  }
  return words;
}

} // namespace shankline::tests
