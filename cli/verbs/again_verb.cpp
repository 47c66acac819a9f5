// The dancer's next order, from the last pair that was good.
#include "cli/archive/archive_place.hpp"
#include "cli/job/archive_saving.hpp"
#include "cli/job/next_order.hpp"
#include "cli/order_file/order_reader.hpp"
#include "cli/surroundings/calendar_day.hpp"
#include "cli/surroundings/target.hpp"
#include "cli/text/message.hpp"
#include "cli/verbs/archive_looking.hpp"
#include "cli/verbs/verbs.hpp"
#include "export/formats/whole_file.hpp"

#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>
#include <ostream>
#include <utility>

namespace shankline {
namespace {

struct NextOrder {
  std::string text;
  std::vector<std::string> remarks;
};

/// Returns nothing where it was refused, with the reason in `messages`.
std::optional<NextOrder> next_order(Store& store, const std::string& dancer, const std::string& day,
                                    std::ostream& messages) {
  const std::vector<RecordedPair> pairs = recorded_pairs(store, dancer);
  const RecordedPair* const from = pair_to_repeat(pairs);
  if (!from) {
    if (store.counted(dancer) == 0)
      refuse_unknown(store, dancer, messages);
    else
      refuse("the archive has no cut of " + shown(dancer),
             "write an order, then save it: shankline archive save ORDER", messages);
    return {};
  }
  ReadOrder read = read_order(store.body(from->cut).order, "entry " + std::to_string(from->cut.id));
  if (!read.ok()) {
    say(read.messages, messages);
    messages << "  do: write the order by hand; shankline archive show " << from->cut.id
             << " prints the older one\n";
    return {};
  }
  const NextOrderBasis basis = next_order_basis(store, pairs, *from, std::move(read.order));
  return NextOrder{next_order_text(basis, day), next_order_remarks(basis, day)};
}

/// Leaves whatever is there as it is, unless it is empty or this very order already: somebody may
/// have measured again and written the new readings into it.
void write_new_order(const std::string& target, const std::string& text) {
  std::error_code error;
  if (kind_at(target) == PathKind::file && std::filesystem::file_size(target, error) > 0) {
    std::ifstream older(target, std::ios::binary);
    const std::string there{std::istreambuf_iterator<char>(older), {}};
    if (!older.is_open() || older.bad())
      throw file_fault(target, "is there already, and cannot be read", errno);
    if (there != text)
      throw FileFault(target + ": is there already and holds something else: it was left as it is");
    return;
  }
  write_whole_file(target, text);
}

} // namespace

ExitCode run_again(const Request& request, std::ostream& out, std::ostream& messages) {
  const ArchiveWish& wish = request.archive;
  const std::string day = today();
  std::optional<NextOrder> next;
  {
    const auto store = open_and_send(wish.file, ArchiveUse::read, messages);
    say_others_rights(wish.file, messages);
    store->with_snapshot([&] { next = next_order(*store, wish.dancer, day, messages); });
  }
  if (!next) return ExitCode::bad_input;
  if (request.output.empty() || request.output == "-") {
    out << next->text;
    return ExitCode::done;
  }
  const std::string target = output_file(request.output, "order.yaml");
  make_output_folder(request.output);
  write_new_order(target, next->text);
  for (const std::string& line : next->remarks)
    out << line << '\n';
  out << wrote_file(target) << '\n';
  return ExitCode::done;
}

} // namespace shankline
