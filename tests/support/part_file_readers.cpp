#include "tests/support/part_file_readers.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>
#include <sstream>
#include <stdexcept>

#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

namespace shankline::tests {
namespace {

[[noreturn]] void refuse(const std::string& why) {
  throw std::runtime_error("not a part's file: " + why);
}

/// Digits and one point, nothing else: no exponent, no inf, no comma.
double number_of(std::string_view text) {
  double value = 0;
  const auto [end, error] =
      std::from_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value))
    refuse("number '" + std::string(text) + "'");
  return value;
}

struct Tag {
  std::string name;
  std::map<std::string, std::string> values;
  bool closes_itself = false;
};

Tag tag_of(std::string_view inside) {
  Tag tag;
  if (!inside.empty() && inside.back() == '/') {
    tag.closes_itself = true;
    inside.remove_suffix(1);
  }
  const std::size_t blank = std::min(inside.find(' '), inside.size());
  tag.name = inside.substr(0, blank);
  inside.remove_prefix(blank);
  while (!inside.empty()) {
    const std::size_t equals = inside.find("=\"");
    if (inside[0] != ' ' || equals == std::string_view::npos) refuse("<" + tag.name);
    const std::size_t end = inside.find('"', equals + 2);
    if (end == std::string_view::npos) refuse("<" + tag.name);
    tag.values[std::string(inside.substr(1, equals - 1))] =
        inside.substr(equals + 2, end - equals - 2);
    inside.remove_prefix(end + 1);
  }
  return tag;
}

class SvgReader {
public:
  explicit SvgReader(std::string_view bytes) : rest_(bytes) {}

  ReadPart read() && {
    while (!rest_.empty()) {
      const std::string words = until('<');
      if (rest_.empty()) break;
      const std::string inside = until('>');
      if (inside[0] == '?') continue;
      if (inside[0] == '/')
        close(inside.substr(1), words);
      else
        open(tag_of(inside));
    }
    if (!open_.empty()) refuse("<" + open_.back() + "> is not closed");
    return std::move(part_);
  }

private:
  std::string until(char sign) {
    const std::size_t end = rest_.find(sign);
    std::string words(rest_.substr(0, end));
    rest_.remove_prefix(end == std::string_view::npos ? rest_.size() : end + 1);
    return words;
  }

  void open(const Tag& tag) {
    if (tag.name == "svg")
      sheet(tag);
    else if (tag.name == "g")
      part_.layers.push_back(tag.values.at("id"));
    else if (tag.name == "polyline" || tag.name == "polygon")
      line(tag);
    else if (tag.name == "text")
      part_.texts.push_back(
          {layer(), "", {number_of(tag.values.at("x")), up(number_of(tag.values.at("y")))}});
    else if (tag.name != "title" && tag.name != "desc")
      refuse("<" + tag.name + ">");
    if (!tag.closes_itself) open_.push_back(tag.name);
  }

  void close(const std::string& name, const std::string& words) {
    if (open_.empty() || open_.back() != name) refuse("</" + name + ">");
    if (name == "text") part_.texts.back().words = words;
    open_.pop_back();
  }

  void sheet(const Tag& tag) {
    const auto length = [&](const char* key) {
      const std::string& text = tag.values.at(key);
      if (text.size() < 3 || text.substr(text.size() - 2) != "mm") refuse(text);
      return number_of(std::string_view(text).substr(0, text.size() - 2));
    };
    part_.width = length("width");
    part_.height = length("height");
    std::istringstream box(tag.values.at("viewBox"));
    std::vector<double> sides;
    for (std::string side; box >> side;)
      sides.push_back(number_of(side));
    if (sides != std::vector<double>{0, 0, part_.width, part_.height})
      refuse("its unit is not 1 mm");
  }

  void line(const Tag& tag) {
    if (tag.values.size() != 1) refuse("a line with more than points");
    PartLine line{layer(), {}, tag.name == "polygon"};
    std::istringstream points(tag.values.at("points"));
    for (std::string pair; points >> pair;) {
      const std::size_t comma = pair.find(',');
      if (comma == std::string::npos) refuse(pair);
      line.points.push_back({number_of(std::string_view(pair).substr(0, comma)),
                             up(number_of(std::string_view(pair).substr(comma + 1)))});
    }
    part_.lines.push_back(std::move(line));
  }

  const std::string& layer() const {
    if (part_.layers.empty() || open_.empty() || open_.back() != "g") refuse("not in a group");
    return part_.layers.back();
  }
  double up(double y) const { return part_.height - y; }

  std::string_view rest_;
  std::vector<std::string> open_;
  ReadPart part_;
};

struct Group {
  int code = 0;
  std::string value;
};

/// The groups after a 0 group, up to the next one.
struct Record {
  std::string name;
  std::vector<Group> groups;

  std::string text(int code) const {
    for (const Group& group : groups)
      if (group.code == code) return group.value;
    refuse(name + " without group " + std::to_string(code));
  }
  double number(int code) const { return number_of(text(code)); }
  Point point(int code) const { return {number(code), number(code + 10)}; }
};

std::vector<Record> records_of(std::string_view bytes) {
  std::vector<Record> records{{"", {}}};
  std::istringstream lines{std::string(bytes)};
  std::string code;
  std::string value;
  while (std::getline(lines, code)) {
    if (!std::getline(lines, value)) refuse("it ends in the middle of a group");
    const int number = static_cast<int>(number_of(code));
    if (number == 999) continue;
    if (number == 0)
      records.push_back({value, {}});
    else
      records.back().groups.push_back({number, value});
  }
  if (records.back().name != "EOF") refuse("it does not end with EOF");
  return records;
}

/// The variables of the header.
void header(const Record& record, ReadPart& part) {
  std::string name;
  double x = 0;
  for (const Group& group : record.groups) {
    if (group.code == 9) name = group.value;
    if (name == "$INSUNITS" && group.code == 70 && group.value != "4") refuse("not in mm");
    if (name == "$MEASUREMENT" && group.code == 70 && group.value != "1") refuse("not metric");
    if (name == "$ACADVER" && group.code == 1 && group.value != "AC1009") refuse(group.value);
    if (group.code == 10) x = number_of(group.value);
    if (group.code != 20) continue;
    const Point place{x, number_of(group.value)};
    if (name == "$EXTMIN") part.low = place;
    if (name == "$EXTMAX") part.high = place;
    if (name == "$LIMMAX") {
      part.width = place.x;
      part.height = place.y;
    }
  }
}

} // namespace

ReadPart read_svg(std::string_view bytes) {
  return SvgReader(bytes).read();
}

ReadPart read_dxf(std::string_view bytes) {
  if (std::any_of(bytes.begin(), bytes.end(),
                  [](char c) { return c != '\n' && (c < ' ' || c > '~'); }))
    refuse("not ASCII");
  ReadPart part;
  bool in_line = false;
  for (const Record& record : records_of(bytes)) {
    if (record.name == "SECTION" && record.text(2) == "HEADER") header(record, part);
    if (record.name == "LAYER" && record.text(2) != "0") part.layers.push_back(record.text(2));
    if (record.name == "LWPOLYLINE") refuse("R12 has no LWPOLYLINE");
    if (record.name == "TEXT")
      part.texts.push_back({record.text(8), record.text(1), record.point(10)});
    if (record.name == "POLYLINE") {
      part.lines.push_back({record.text(8), {}, record.text(70) == "1"});
      in_line = true;
    }
    if (record.name == "VERTEX") {
      if (!in_line || record.text(8) != part.lines.back().layer) refuse("a stray VERTEX");
      part.lines.back().points.push_back(record.point(10));
    }
    if (record.name == "SEQEND") in_line = false;
  }
  return part;
}

TenthPicture::TenthPicture(const std::filesystem::path& png, double height) : height_(height) {
  const ScratchDirectory scratch;
  const std::string pgm = (scratch.path() / "picture.pgm").string();
  const std::string png_bytes = read_file(png);
  const auto big_endian = [&](std::size_t at) {
    std::size_t value = 0;
    for (std::size_t i = 0; i < 4; ++i)
      value = value << 8 | static_cast<unsigned char>(png_bytes.at(at + i));
    return value;
  };
  width_ = big_endian(16); // IHDR of PNG, ISO/IEC 15948
  rows_ = big_endian(20);
  const Finished finished =
      // A picture that says no density of its own has 96 pixels to the inch for mutool.
      run({"mutool", "draw", "-q", "-r", "96", "-c", "gray", "-o", pgm, png.string()});
  if (finished.exit_code != 0) throw std::runtime_error("mutool: " + finished.err);
  const std::string bytes = read_file(pgm);
  const std::string head =
      "P5\n" + std::to_string(width_) + " " + std::to_string(rows_) + "\n255\n";
  if (bytes.rfind(head, 0) != 0 || bytes.size() != head.size() + width_ * rows_)
    throw std::runtime_error("mutool made no grey map of the picture's size");
  grey_ = bytes.substr(bytes.size() - width_ * rows_);
}

bool TenthPicture::dark(std::size_t column, std::size_t row) const {
  return static_cast<unsigned char>(grey_.at(row * width_ + column)) < 128;
}

std::vector<double> TenthPicture::dark_along_column(double x) const {
  std::vector<double> middles;
  const auto column = static_cast<std::size_t>(x * 10);
  for (std::size_t row = 0; row < rows_; ++row) {
    if (!dark(column, row)) continue;
    const std::size_t from = row;
    while (row < rows_ && dark(column, row))
      ++row;
    middles.push_back(height_ - static_cast<double>(from + row) / 20);
  }
  return middles;
}

std::vector<double> TenthPicture::dark_along_row(double y) const {
  std::vector<double> middles;
  const auto row = static_cast<std::size_t>((height_ - y) * 10);
  for (std::size_t column = 0; column < width_; ++column) {
    if (!dark(column, row)) continue;
    const std::size_t from = column;
    while (column < width_ && dark(column, row))
      ++column;
    middles.push_back(static_cast<double>(from + column) / 20);
  }
  return middles;
}

} // namespace shankline::tests
