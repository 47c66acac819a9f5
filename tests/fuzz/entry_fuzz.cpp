// Feeds the readers of an archived entry, chosen by the first byte: a drawing as it is stored or
// before it is deflated, an outcome, options and two solutions in JSON, or texts that must come out
// of a bundle as they went in. A bundle's digests fit whatever somebody made up, so all of it may
// be hostile.
#include "cli/archive/archive_bundle.hpp"
#include "cli/archive/archive_drawing.hpp"
#include "cli/archive/archive_json.hpp"
#include "cli/yaml/order_characters.hpp"
#include "export/formats/pdf_writer.hpp"
#include "tests/fuzz/passing_file.hpp"
#include "tests/fuzz/passing_store.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <zlib.h>

namespace {

using namespace shankline;

void try_drawing(std::string_view bytes) {
  Drawing drawing;
  try {
    drawing = drawing_of(bytes);
  } catch (const DrawingUnreadable&) {
    return;
  }
  const std::string kept = drawing_bytes(drawing);
  if (drawing_bytes(drawing_of(kept)) != kept) std::abort();
  drawing.lettering.faces.clear(); // files of this machine
  try {
    pdf_bytes(drawing);
  } catch (const std::runtime_error&) { // said like any other fault of a file
  }
}

std::string deflated(std::string_view bytes) {
  uLongf size = compressBound(bytes.size());
  std::string into(size, '\0');
  compress2(reinterpret_cast<Bytef*>(into.data()), &size,
            reinterpret_cast<const Bytef*>(bytes.data()), bytes.size(), 1);
  into.resize(size);
  return "shankline-drawing/1 " + std::to_string(bytes.size()) + "\n" + into;
}

void try_json(std::string_view text) {
  const std::size_t half = text.find('\n');
  ArchiveEntry entry;
  EntryHead& head = entry.head;
  head.kind = EntryKind::note;
  head.outcome = text;
  (void)outcome_words(outcome_of(head));
  (void)entry_json(head, nullptr, {});
  (void)options_words(head.outcome);
  (void)solution_differences(text.substr(0, half),
                             half == std::string_view::npos ? text : text.substr(half + 1));
  head.kind = EntryKind::cut;
  entry.body = {head.outcome, head.outcome, head.outcome, {}, {}};
  (void)entry_json(head, &entry.body, {});
}

/// Returns true if the order reader would let this text through.
bool is_order_text(std::string_view text) {
  const std::string plain = with_plain_line_ends(text);
  return !refuse_characters(plain, CharacterPlaces(plain));
}

void try_texts(const std::string& text) {
  static tests::PassingStore from(8); // all of it goes into each bundle
  static tests::PassingStore to(64);
  if (!is_order_text(text)) return;
  ArchiveEntry entry;
  entry.head.saved = "2026-04-01T10:00:00Z";
  entry.head.program = "0.1.0";
  entry.head.dancer = "M-07";
  const std::size_t line = std::min(text.find('\n'), text.find('\r'));
  entry.head.pair = text.substr(0, line);
  std::replace(entry.head.pair.begin(), entry.head.pair.end(), '\t', ' '); // no name has one
  std::size_t half = text.size() / 2;
  while (half > 0 && (static_cast<unsigned char>(text[half]) & 0xC0) == 0x80)
    --half; // not in the middle of a character
  entry.body = {text, text.substr(half), {}, text, {}};
  ArchiveStore& there = from.use();
  const EntryHead saved = there.add(std::move(entry));
  std::string bundle;
  write_bundle(there, {}, [&bundle](std::string_view piece) { bundle += piece; });
  const tests::PassingFile file(bundle);
  ArchiveStore& here = to.use();
  read_bundle(here, file.path());
  const auto head = here.newest_of("M-07");
  if (!head || head->digest != saved.digest || here.body(*head).order != text) std::abort();
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  if (size == 0) return 0;
  const std::string text(bytes + 1, bytes + size);
  switch (bytes[0] % 4) {
  case 0:
    try_drawing(text);
    break;
  case 1:
    try_drawing(deflated(text));
    break;
  case 2:
    try_json(text);
    break;
  default:
    try_texts(text);
  }
  return 0;
}
