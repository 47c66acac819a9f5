#include "export/formats/content_stream.hpp"

#include <array>
#include <cmath>
#include <stdexcept>
#include <utility>

namespace shankline {
namespace {

constexpr int place_decimals = 2; // 0.01 pt is 0.0035 mm
constexpr int fine_decimals = 5;
constexpr double most = 1e6; // above any page (ISO 32000-1, annex C), far below an overflow here

/// Inside parentheses (ISO 32000-1, 7.3.4.2).
void append_escaped(std::string& text, std::string_view bytes) {
  for (const char c : bytes) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '(' || c == ')' || c == '\\') {
      text += {'\\', c};
    } else if (byte < 0x20 || byte > 0x7e) {
      text += {'\\', static_cast<char>('0' + (byte >> 6)), static_cast<char>('0' + (byte >> 3 & 7)),
               static_cast<char>('0' + (byte & 7))};
    } else {
      text += c;
    }
  }
}

} // namespace

void ContentStream::number(double value, int decimals) {
  static constexpr std::array<double, 6> powers{1, 10, 100, 1000, 10000, 100000};
  if (!(std::abs(value) < most)) throw std::invalid_argument("a number that no page has room for");
  const long long scaled = std::llround(value * powers[static_cast<std::size_t>(decimals)]);
  long long rest = std::abs(scaled);
  while (decimals > 0 && rest % 10 == 0) {
    rest /= 10;
    --decimals;
  }
  std::array<char, 24> text{}; // written from its end
  char* at = text.data() + text.size();
  const auto digit = [&] {
    *--at = static_cast<char>('0' + rest % 10);
    rest /= 10;
  };
  *--at = ' ';
  if (decimals > 0) {
    for (; decimals > 0; --decimals)
      digit();
    *--at = '.';
  }
  do
    digit();
  while (rest > 0);
  if (scaled < 0) *--at = '-';
  bytes_.append(at, text.data() + text.size());
}

void ContentStream::operation(std::string_view name) {
  bytes_ += name;
  bytes_ += '\n';
}

void ContentStream::butt_caps_and_round_joins() {
  operation("0 J");
  operation("1 j");
}

void ContentStream::line_width(double width) {
  number(width, fine_decimals);
  operation("w");
}

void ContentStream::stroke_grey(double grey) {
  number(grey, fine_decimals);
  operation("G");
}

void ContentStream::dash(std::span<const int> lengths) {
  bytes_ += '[';
  for (const int length : lengths)
    number(length, 0);
  operation("] 0 d");
}

void ContentStream::move_to(double x, double y) {
  number(x, place_decimals);
  number(y, place_decimals);
  operation("m");
}

void ContentStream::line_to(double x, double y) {
  number(x, place_decimals);
  number(y, place_decimals);
  operation("l");
}

void ContentStream::close_path() {
  operation("h");
}

void ContentStream::stroke() {
  operation("S");
}

void ContentStream::text(std::string_view font, double size, const TextPlace& place,
                         std::string_view bytes) {
  operation("BT");
  select_font(font, size);
  if (place.sine == 0 && place.cosine == 1) {
    number(place.x, place_decimals);
    number(place.y, place_decimals);
    operation("Td");
  } else {
    for (const double part : {place.cosine, place.sine, -place.sine, place.cosine})
      number(part, fine_decimals);
    number(place.x, place_decimals);
    number(place.y, place_decimals);
    operation("Tm");
  }
  show(bytes);
  operation("ET");
}

void ContentStream::text_run(std::string_view font, double size, std::string_view bytes) {
  select_font(font, size);
  show(bytes);
}

void ContentStream::select_font(std::string_view font, double size) {
  (bytes_ += '/').append(font) += ' ';
  number(size, fine_decimals);
  operation("Tf");
}

void ContentStream::show(std::string_view bytes) {
  bytes_ += '(';
  append_escaped(bytes_, bytes);
  operation(") Tj");
}

std::string ContentStream::take() {
  return std::exchange(bytes_, {});
}

} // namespace shankline
