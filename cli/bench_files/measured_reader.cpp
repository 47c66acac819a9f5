#include "cli/bench_files/measured_reader.hpp"

#include "cli/text/quantity.hpp"
#include "cli/text/word_list.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

namespace shankline {
namespace {

/// The file before it is checked against the order's lines: all sizes that have a value, with their
/// places.
struct Draft {
  MeasuredPair pair;
  std::optional<Instrument> instrument; ///< for every size that does not name its own
  bool instrument_named = false;        ///< at the top of the file, rightly or not
  struct Size {
    KeyPlace at;
    FootSide foot;
    std::string key;
    double value;
    std::optional<Instrument> instrument;
    std::optional<double> within;
  };
  std::vector<Size> sizes;
};

std::vector<std::string_view> instrument_names() {
  std::vector<std::string_view> names;
  for (const InstrumentGuide& guide : instrument_guides())
    names.push_back(guide.name);
  return names;
}

std::optional<Instrument> read_instrument(ParseContext& context, const Entry& entry) {
  const auto choice = read_choice(context, entry, instrument_names());
  return choice ? std::optional(instrument_guides()[*choice].instrument) : std::nullopt;
}

/// One size as it stands in the file.
struct WrittenSize {
  std::optional<double> value;
  std::optional<Instrument> instrument;
  std::optional<double> within;
};

template <auto member, const auto& key>
void size_number(ParseContext& context, const Entry& entry, WrittenSize& into) {
  into.*member = read_number(context, entry, key);
}
constexpr std::string_view size_guide = "made.size";
constexpr std::string_view layers_guide = "made.layers";
constexpr std::string_view within_guide = "made.within";

void size_instrument(ParseContext& context, const Entry& entry, WrittenSize& into) {
  into.instrument = read_instrument(context, entry);
}

constexpr Field<WrittenSize> size_fields[] = {
    {"value", size_number<&WrittenSize::value, size_guide>},
    {"instrument", size_instrument},
    {"within", size_number<&WrittenSize::within, within_guide>},
};

/// A number, or {value: …, instrument: …} or {value: …, within: …}; of layers a number only.
void read_size(ParseContext& context, const Entry& entry, FootSide foot, std::string key,
               Draft& draft) {
  WrittenSize size;
  if (key == "layers")
    size.value = read_number(context, entry, layers_guide);
  else if (entry.value->kind == NodeKind::map)
    read_fields(context, entry, size_fields, size);
  else
    size.value = read_number(context, entry, size_guide);
  if (size.value)
    draft.sizes.push_back({{entry.value->place, entry.written},
                           foot,
                           std::move(key),
                           *size.value,
                           size.instrument,
                           size.within});
  else if (key != "layers" && entry.value->kind == NodeKind::map && !has_key(*entry.value, "value"))
    context.error(entry, {.what = "the measured size is missing",
                          .allowed = "a number, or {value: …, instrument: …}",
                          .advice = "write value: and the size in mm"});
}

/// Reads the sizes of one foot; those of its board's end, its thinned stretch and its sides are in
/// groups, as the order's lines are.
void read_sizes(ParseContext& context, const Entry& map, FootSide foot, const std::string& group,
                Draft& draft) {
  constexpr std::array<std::string_view, 8> keys{"end",   "kept",           "layers",  "corner",
                                                 "bevel", "edge_thickness", "thinned", "sides"};
  constexpr std::array<std::string_view, 3> thinned{"from", "to", "thickness"};
  constexpr std::array<std::string_view, 4> edges{"medial", "centre", "lateral", "back"};
  if (!context.expect_map(map, group.empty()        ? std::span<const std::string_view>(keys)
                               : group == "thinned" ? std::span<const std::string_view>(thinned)
                                                    : std::span<const std::string_view>(edges)))
    return;
  for (const Member& member : map.value->members) {
    const Entry entry = map.member(member);
    context.remember(entry);
    if (!context.expect_something(entry)) continue;
    const std::string key = joined_key(group, member.key);
    const bool is_group = member.value.kind == NodeKind::map && !has_key(member.value, "value") &&
                          group.empty() &&
                          (member.key == "end" || member.key == "sides" || member.key == "thinned");
    if (is_group)
      read_sizes(context, entry, foot, member.key, draft);
    else
      read_size(context, entry, foot, key, draft);
  }
}

template <FootSide foot> void read_foot(ParseContext& context, const Entry& entry, Draft& draft) {
  read_sizes(context, entry, foot, "", draft);
}

void read_format(ParseContext& context, const Entry& entry, Draft&) {
  expect_format(context, entry, measured_format, "what was measured on a made pair");
}

void read_date(ParseContext& context, const Entry& entry, Draft& draft) {
  if (auto day = read_day(context, entry)) draft.pair.date = *std::move(day);
}

template <auto member, const auto& limits>
void of_pair(ParseContext& context, const Entry& entry, Draft& draft) {
  text_in<member, limits>(context, entry, draft.pair);
}

void read_shared_instrument(ParseContext& context, const Entry& entry, Draft& draft) {
  draft.instrument_named = true;
  draft.instrument = read_instrument(context, entry);
}

constexpr Field<Draft> measured_fields[] = {
    {"format", read_format},
    {"dancer", of_pair<&MeasuredPair::dancer, code_limits>},
    {"date", read_date},
    {"by", of_pair<&MeasuredPair::by, line_limits>},
    {"instrument", read_shared_instrument},
    {"left", read_foot<FootSide::left>},
    {"right", read_foot<FootSide::right>},
};

/// "end.medial, end.centre, kept"
std::string keys_of_foot(std::span<const AcceptanceLine> lines, FootSide foot) {
  std::string keys;
  for (const AcceptanceLine& line : lines)
    if (line.foot == foot) keys += (keys.empty() ? "" : ", ") + line.key;
  return keys.empty() ? "nothing: the order does not name this foot" : keys;
}

/// Checks that every size belongs to a line of the order and has an instrument.
void finish(BenchFile<Draft>& read, std::span<const AcceptanceLine> lines) {
  ParseContext context(read.file, read.messages, read.places);
  for (const Draft::Size& size : read.content.sizes) {
    const auto line = std::find_if(lines.begin(), lines.end(), [&](const AcceptanceLine& one) {
      return one.foot == size.foot && one.key == size.key;
    });
    if (line == lines.end()) {
      context.error(size.at, {.what = "the order has no such line",
                              .allowed = keys_of_foot(lines, size.foot),
                              .advice = "Measure only the sizes on the acceptance sheet; print "
                                        "it with --blank."});
      continue;
    }
    if (line->counted) {
      if (size.value != std::floor(size.value))
        context.error(size.at, {.what = number_text(size.value) + " is not a number of layers",
                                .allowed = "a whole number",
                                .advice = "Count the layers that go on behind the line."});
      else
        read.content.pair.sizes.push_back({size.foot, size.key, size.value, 0, "counted"});
      continue;
    }
    const auto instrument = size.instrument ? size.instrument : read.content.instrument;
    if (!instrument && !size.within) {
      if (read.content.instrument_named) continue; // what is wrong with it was said there
      context.error(size.at,
                    {.what = "the instrument of this size is missing",
                     .allowed = joined(instrument_names(), ", "),
                     .advice = "write instrument: half-millimetre rule at the top of the file"});
      continue;
    }
    read.content.pair.sizes.push_back({size.foot, size.key, size.value,
                                       size.within ? *size.within : instrument_guide(*instrument).U,
                                       size.within && !instrument
                                           ? std::string("as given")
                                           : std::string(instrument_guide(*instrument).name),
                                       size.within.has_value()});
  }
  read.messages = in_line_order(std::move(read.messages));
}

BenchFile<MeasuredPair> finished(BenchFile<Draft> read, std::span<const AcceptanceLine> lines) {
  finish(read, lines);
  return {std::move(read.content.pair), std::move(read.file), std::move(read.messages),
          std::move(read.places)};
}

} // namespace

BenchFile<MeasuredPair> read_measured_text(std::string_view text, const std::string& file_name,
                                           std::span<const AcceptanceLine> lines) {
  return finished(read_bench_text<Draft>(text, file_name, measured_fields, measured_format), lines);
}

BenchFile<MeasuredPair> read_measured_file(const std::string& path,
                                           std::span<const AcceptanceLine> lines) {
  return finished(read_bench_file<Draft>(path, measured_fields, measured_format), lines);
}

} // namespace shankline
