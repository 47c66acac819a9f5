#include "cli/archive/archive_drawing.hpp"

#include "export/formats/digest.hpp"

#include <algorithm>
#include <bit>
#include <charconv>
#include <cstdint>
#include <utility>
#include <variant>
#include <zlib.h>

namespace shankline {
namespace {

constexpr std::string_view title_1 = "shankline-drawing/1 "; ///< without the digest
constexpr std::string_view title = "shankline-drawing/2 ";
constexpr std::size_t largest_inflated = std::size_t{64} << 20;

enum class Tag : std::uint8_t { stroke = 1, text = 2 };
static_assert(std::variant_size_v<Mark> == 2, "a new kind of mark needs a tag here");

/// Numbers with their lowest byte first, whatever the machine.
class Writer {
public:
  void byte(std::uint8_t value) { bytes_ += static_cast<char>(value); }
  void count(std::size_t value) { fixed(static_cast<std::uint32_t>(value)); }
  void number(double value) { fixed(std::bit_cast<std::uint64_t>(value)); }
  void whole(std::int64_t value) { fixed(static_cast<std::uint64_t>(value)); }
  void text(std::string_view value) {
    count(value.size());
    bytes_ += value;
  }
  void point(const Point& p) {
    number(p.x);
    number(p.y);
  }
  std::string take() { return std::move(bytes_); }

private:
  template <class Whole> void fixed(Whole value) {
    for (std::size_t i = 0; i < sizeof value; ++i)
      byte(static_cast<std::uint8_t>(value >> (8 * i)));
  }
  std::string bytes_;
};

class Reader {
public:
  explicit Reader(std::string_view bytes) : bytes_(bytes) {}

  std::uint8_t byte() { return static_cast<std::uint8_t>(take(1)[0]); }
  /// Reads a count of things that take at least `least` bytes each; refuses at once a count that
  /// the rest of the bytes cannot hold.
  std::size_t count(std::size_t least) {
    const std::size_t value = fixed<std::uint32_t>();
    if (value > bytes_.size() / least) throw DrawingUnreadable("a drawing that ends too early");
    return value;
  }
  double number() { return std::bit_cast<double>(fixed<std::uint64_t>()); }
  std::int64_t whole() { return static_cast<std::int64_t>(fixed<std::uint64_t>()); }
  char32_t character() { return fixed<std::uint32_t>(); }
  std::string text() { return std::string(take(count(1))); }
  Point point() {
    const double x = number();
    return {x, number()};
  }
  template <class Choice> Choice choice(Choice last) {
    const std::uint8_t value = byte();
    if (value > static_cast<std::uint8_t>(last)) throw DrawingUnreadable("an unknown choice");
    return static_cast<Choice>(value);
  }
  bool flag() { return choice<std::uint8_t>(1) == 1; }
  bool at_end() const { return bytes_.empty(); }

private:
  std::string_view take(std::size_t size) {
    if (size > bytes_.size()) throw DrawingUnreadable("a drawing that ends too early");
    const std::string_view taken = bytes_.substr(0, size);
    bytes_.remove_prefix(size);
    return taken;
  }
  template <class Whole> Whole fixed() {
    Whole value = 0;
    for (std::size_t i = 0; i < sizeof value; ++i)
      value |= static_cast<Whole>(static_cast<Whole>(byte()) << (8 * i));
    return value;
  }
  std::string_view bytes_;
};

// Members are taken apart by name here, so that a new one does not compile unnoticed.

void write(Writer& to, const Stroke& stroke) {
  const auto& [kind, points, closed] = stroke;
  to.byte(static_cast<std::uint8_t>(Tag::stroke));
  to.text(line_style(kind).name);
  to.byte(closed ? 1 : 0);
  to.count(points.size());
  for (const Point& p : points)
    to.point(p);
}

void write(Writer& to, const Text& text) {
  const auto& [at, words, size, weight, align, angle] = text;
  to.byte(static_cast<std::uint8_t>(Tag::text));
  to.point(at);
  to.text(words);
  to.number(size);
  to.byte(static_cast<std::uint8_t>(weight));
  to.byte(static_cast<std::uint8_t>(align));
  to.number(angle);
}

void write(Writer& to, const Page& page) {
  const auto& [paper, page_title, marks, label] = page;
  const auto& [name, width, height, roll] = paper;
  to.text(name);
  to.number(width);
  to.number(height);
  to.byte(roll ? 1 : 0);
  to.text(page_title);
  to.text(label);
  to.count(marks.size());
  for (const Mark& mark : marks)
    std::visit([&to](const auto& one) { write(to, one); }, mark);
}

void write(Writer& to, const FaceFile& file) {
  const auto& [path, index] = file;
  to.text(path);
  to.number(index);
}

void write(Writer& to, const Lettering& lettering) {
  const auto& [faces] = lettering;
  to.count(faces.size());
  for (const auto& [regular, bold, shows] : faces) {
    write(to, regular);
    write(to, bold);
    to.count(shows.size());
    for (const char32_t character : shows)
      to.count(character);
  }
}

void write(Writer& to, const Drawing& drawing) {
  const auto& [drawing_title, author, subject, pages, lettering, margin, created] = drawing;
  to.text(drawing_title);
  to.text(author);
  to.text(subject);
  write(to, lettering);
  to.number(margin);
  to.byte(created ? 1 : 0);
  to.whole(created.value_or(0));
  to.count(pages.size());
  for (const Page& page : pages)
    write(to, page);
}

LineKind kind_named(const std::string& name) {
  for (const LineStyle& style : line_styles())
    if (style.name == name) return style.kind;
  throw DrawingUnreadable("an unknown kind of line");
}

Stroke read_stroke(Reader& from) {
  Stroke stroke;
  stroke.kind = kind_named(from.text());
  stroke.closed = from.flag();
  stroke.points.resize(from.count(16));
  for (Point& p : stroke.points)
    p = from.point();
  return stroke;
}

Text read_text(Reader& from) {
  Text text;
  text.at = from.point();
  text.words = from.text();
  text.size = from.number();
  text.weight = from.choice(Weight::bold);
  text.align = from.choice(Align::right);
  text.angle = from.number();
  return text;
}

/// Names of papers are views: only those of the table outlive this.
std::string_view lasting_name(const std::string& name) {
  for (const Paper& paper : papers())
    if (paper.name == name) return paper.name;
  return name == "roll" ? "roll" : "";
}

FaceFile read_face_file(Reader& from) {
  FaceFile file;
  file.path = from.text();
  const double index = from.number();
  if (!(index >= 0 && index <= 0xffff)) throw DrawingUnreadable("a face that no file holds");
  file.index = static_cast<int>(index);
  return file;
}

Lettering read_lettering(Reader& from) {
  Lettering lettering;
  for (std::size_t faces = from.count(28); faces > 0; --faces) {
    Face face;
    face.regular = read_face_file(from);
    face.bold = read_face_file(from);
    face.shows.resize(from.count(4));
    for (char32_t& character : face.shows)
      character = from.character();
    lettering.faces.push_back(std::move(face));
  }
  return lettering;
}

Page read_page(Reader& from) {
  Page page;
  page.paper.name = lasting_name(from.text());
  page.paper.width = from.number();
  page.paper.height = from.number();
  page.paper.roll = from.flag();
  page.title = from.text();
  page.label = from.text();
  for (std::size_t marks = from.count(2); marks > 0; --marks)
    switch (from.byte()) {
    case static_cast<std::uint8_t>(Tag::stroke):
      page.marks.emplace_back(read_stroke(from));
      break;
    case static_cast<std::uint8_t>(Tag::text):
      page.marks.emplace_back(read_text(from));
      break;
    default:
      throw DrawingUnreadable("an unknown kind of mark");
    }
  return page;
}

std::string deflated(std::string_view bytes) {
  uLongf size = compressBound(bytes.size());
  std::string into(size, '\0');
  // Fast: the disk is flushed for every entry, and waiting for it is what saving consists of.
  const int code = compress2(reinterpret_cast<Bytef*>(into.data()), &size,
                             reinterpret_cast<const Bytef*>(bytes.data()), bytes.size(), 1);
  if (code != Z_OK) throw std::bad_alloc();
  into.resize(size);
  return into;
}

std::string inflated(std::string_view bytes, std::size_t expected) {
  std::string into(expected, '\0');
  uLongf size = expected;
  uLong read = bytes.size();
  const int code = uncompress2(reinterpret_cast<Bytef*>(into.data()), &size,
                               reinterpret_cast<const Bytef*>(bytes.data()), &read);
  if (code == Z_MEM_ERROR) throw std::bad_alloc();
  if (code != Z_OK || size != expected || read != bytes.size())
    throw DrawingUnreadable("a drawing that does not inflate");
  return into;
}

} // namespace

std::string drawing_bytes(const Drawing& drawing) {
  Writer to;
  write(to, drawing);
  const std::string bytes = to.take();
  return std::string(title) + std::to_string(bytes.size()) + " " + sha256(bytes) + "\n" +
         deflated(bytes);
}

Drawing drawing_of(std::string_view bytes) {
  const bool with_digest = bytes.starts_with(title);
  if (!with_digest && !bytes.starts_with(title_1))
    throw DrawingUnreadable("not shankline-drawing/1 or 2");
  const std::size_t line_end = bytes.find('\n', title.size());
  if (line_end == std::string_view::npos) throw DrawingUnreadable("a drawing that ends too early");
  std::string_view line = bytes.substr(title.size(), line_end - title.size());
  std::string_view digest;
  if (with_digest) {
    const std::size_t space = std::min(line.find(' '), line.size());
    digest = line.substr(std::min(space + 1, line.size()));
    line = line.substr(0, space);
  }
  std::size_t size = 0;
  const char* const end = line.data() + line.size();
  const auto [stop, error] = std::from_chars(line.data(), end, size);
  if (error != std::errc() || stop != end || size > largest_inflated)
    throw DrawingUnreadable("a drawing of no sensible length");
  const std::string plain = inflated(bytes.substr(line_end + 1), size);
  if (with_digest && sha256(plain) != digest)
    throw DrawingCorrupt("what is drawn does not have the digest that was saved with it");
  Reader from(plain);
  Drawing drawing;
  drawing.title = from.text();
  drawing.author = from.text();
  drawing.subject = from.text();
  drawing.lettering = read_lettering(from);
  drawing.margin = from.number();
  const bool dated = from.flag();
  const std::int64_t created = from.whole();
  if (dated) drawing.created = created;
  for (std::size_t pages = from.count(24); pages > 0; --pages)
    drawing.pages.push_back(read_page(from));
  if (!from.at_end()) throw DrawingUnreadable("a drawing with something after its end");
  return drawing;
}

} // namespace shankline
