#include "export/formats/dxf_writer.hpp"

#include "export/lettering/code_point.hpp"
#include "geometry/order/figure.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <string_view>
#include <vector>

namespace shankline {
namespace {

// The index colour that is black or white, whichever the ground is not.
constexpr int plain_colour = 7;

/// Escapes the percent sign, the backslash and the caret, which have special meanings in a DXF text
/// (%%d is a degree sign).
bool is_plain(std::uint32_t code) {
  return code >= 0x20 && code < 0x7f && code != '%' && code != '\\' && code != '^';
}

std::string dxf_text(std::string_view words) {
  constexpr const char* digits = "0123456789ABCDEF";
  std::string ascii;
  while (!words.empty()) {
    const auto [code, length] = next_code_point(words);
    words.remove_prefix(length);
    if (is_control(code)) {
      ascii += ' ';
    } else if (is_plain(code)) {
      ascii += static_cast<char>(code);
    } else if (code > 0xffff) {
      ascii += '?'; // four digits are all there are
    } else {
      ascii += "\\U+";
      for (const unsigned shift : {12u, 8u, 4u, 0u})
        ascii += digits[code >> shift & 0xfu];
    }
  }
  return ascii;
}

class DxfWriter {
public:
  DxfWriter(const PartDrawing& part, const std::string& title) : part_(part), title_(title) {
    for (const LineStyle& style : line_styles())
      if (std::any_of(part.lines.begin(), part.lines.end(),
                      [&](const Stroke& line) { return line.kind == style.kind; }))
        layers_.push_back(style);
  }

  std::string bytes() && {
    group(999, dxf_text(title_));
    group(999, "unit: 1 is 1 mm");
    header();
    tables();
    group(0, "SECTION");
    group(2, "BLOCKS");
    group(0, "ENDSEC");
    entities();
    group(0, "EOF");
    return std::move(dxf_);
  }

private:
  void group(int code, std::string_view value) {
    dxf_ += std::to_string(code);
    dxf_ += '\n';
    dxf_ += value;
    dxf_ += '\n';
  }
  void group(int code, double value) { group(code, std::string_view(figure(value, 6))); }
  void count(int code, std::size_t value) { group(code, std::string_view(std::to_string(value))); }
  void place(int code, Point p) {
    group(code, p.x);
    group(code + 10, p.y);
  }

  void variable(const char* name, Point p) {
    group(9, name);
    place(10, p);
  }

  void value(const char* name, std::size_t number) {
    group(9, name);
    count(70, number);
  }

  void header() {
    group(0, "SECTION");
    group(2, "HEADER");
    group(9, "$ACADVER");
    group(1, "AC1009");
    // Later forms of DXF brought these, and importers read them here, too: millimetres, metric.
    value("$INSUNITS", 4);
    value("$MEASUREMENT", 1);
    variable("$EXTMIN", part_.low);
    group(30, 0.0);
    variable("$EXTMAX", part_.high);
    group(30, 0.0);
    variable("$LIMMIN", {0, 0});
    variable("$LIMMAX", {part_.width, part_.height});
    group(0, "ENDSEC");
  }

  void begin_table(const char* name, std::size_t entries) {
    group(0, "TABLE");
    group(2, name);
    count(70, entries);
  }

  void tables() {
    group(0, "SECTION");
    group(2, "TABLES");
    line_types();
    begin_table("LAYER", layers_.size() + 1 + (part_.labels.empty() ? 0 : 1) +
                             (part_.names.empty() ? 0 : 1));
    layer("0", plain_colour);
    if (!part_.labels.empty()) layer(label_layer, plain_colour);
    if (!part_.names.empty()) layer(name_layer, name_colour);
    for (const LineStyle& style : layers_)
      layer(style.name, style.colour);
    group(0, "ENDTAB");
    text_style();
    group(0, "ENDSEC");
  }

  void layer(std::string_view name, int colour) {
    group(0, "LAYER");
    group(2, name);
    count(70, 0);
    count(62, static_cast<std::size_t>(colour));
    group(6, "CONTINUOUS");
  }

  /// Dashes are lines of their own: not every importer knows line types.
  void line_types() {
    begin_table("LTYPE", 1);
    group(0, "LTYPE");
    group(2, "CONTINUOUS");
    count(70, 0);
    group(3, "solid");
    count(72, 'A');
    count(73, 0);
    group(40, 0.0);
    group(0, "ENDTAB");
  }

  void text_style() {
    begin_table("STYLE", 1);
    group(0, "STYLE");
    group(2, "STANDARD");
    count(70, 0);
    group(40, 0.0);
    group(41, 1.0);
    group(50, 0.0);
    count(71, 0);
    group(42, 3.0);
    group(3, "txt");
    group(4, "");
    group(0, "ENDTAB");
  }

  void entities() {
    group(0, "SECTION");
    group(2, "ENTITIES");
    for (const Text& text : part_.labels)
      words(text, label_layer);
    for (const Text& text : part_.names)
      words(text, name_layer);
    for (const Stroke& line : part_.lines)
      polyline(line);
    group(0, "ENDSEC");
  }

  void words(const Text& text, const char* layer) {
    static const std::map<Align, std::size_t> justified{
        {Align::left, 0}, {Align::centre, 1}, {Align::right, 2}};
    group(0, "TEXT");
    group(8, layer);
    place(10, text.at);
    group(40, text.size * cap_height); // DXF measures text by its capitals
    group(1, dxf_text(text.words));
    group(50, text.angle);
    if (text.align == Align::left) return;
    count(72, justified.at(text.align));
    place(11, text.at);
  }

  void polyline(const Stroke& line) {
    const std::string_view layer = line_style(line.kind).name;
    group(0, "POLYLINE");
    group(8, layer);
    count(66, 1);
    place(10, {0, 0}); // asked for by the format, without meaning
    group(30, 0.0);
    count(70, line.closed ? 1 : 0);
    for (const Point& p : line.points) {
      group(0, "VERTEX");
      group(8, layer);
      place(10, p);
    }
    group(0, "SEQEND");
    group(8, layer);
  }

  const PartDrawing& part_;
  const std::string& title_;
  std::vector<LineStyle> layers_;
  std::string dxf_;
};

} // namespace

std::string dxf_bytes(const PartDrawing& part, const std::string& title) {
  return DxfWriter(part, title).bytes();
}

} // namespace shankline
