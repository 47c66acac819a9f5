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

// Colours of the AutoCAD Color Index; black or white by the ground, grey, and red for what is cut.
constexpr int plain_colour = 7;
constexpr int grey_colour = 8;
constexpr int cut_colour = 1;

/// In a DXF text the percent sign (%%d is a degree sign), the backslash and the caret mean more
/// than themselves.
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

bool is_piece(LineKind kind) {
  return kind == LineKind::kept_piece || kind == LineKind::removed_piece;
}

bool is_solid(const LineStyle& style) {
  return style.dash[0] == 0;
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

  void header() {
    group(0, "SECTION");
    group(2, "HEADER");
    group(9, "$ACADVER");
    group(1, "AC1009");
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
    begin_table("LAYER", layers_.size() + 2);
    layer("0", plain_colour, "CONTINUOUS");
    layer(label_layer, plain_colour, "CONTINUOUS");
    for (const LineStyle& style : layers_)
      layer(style.name,
            is_piece(style.kind) ? cut_colour
            : style.grey < 0.5   ? plain_colour
                                 : grey_colour,
            is_solid(style) ? "CONTINUOUS" : style.name);
    group(0, "ENDTAB");
    text_style();
    group(0, "ENDSEC");
  }

  void layer(std::string_view name, int colour, std::string_view line_type) {
    group(0, "LAYER");
    group(2, name);
    count(70, 0);
    count(62, static_cast<std::size_t>(colour));
    group(6, line_type);
  }

  /// A dashed kind has a line type of its own name.
  void line_types() {
    begin_table("LTYPE", 1 + static_cast<std::size_t>(std::count_if(
                                 layers_.begin(), layers_.end(),
                                 [](const LineStyle& style) { return !is_solid(style); })));
    line_type("CONTINUOUS", "solid", {});
    for (const LineStyle& style : layers_) {
      if (is_solid(style)) continue;
      std::vector<double> dash = dash_lengths(style);
      for (std::size_t i = 1; i < dash.size(); i += 2)
        dash[i] = -dash[i]; // pen up
      line_type(style.name, style.words, dash);
    }
    group(0, "ENDTAB");
  }

  void line_type(std::string_view name, std::string_view words, const std::vector<double>& dash) {
    double length = 0;
    for (const double piece : dash)
      length += std::abs(piece);
    group(0, "LTYPE");
    group(2, name);
    count(70, 0);
    group(3, words);
    count(72, 'A');
    count(73, dash.size());
    group(40, length);
    for (const double piece : dash)
      group(49, piece);
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
      label(text);
    for (const Stroke& line : part_.lines)
      polyline(line);
    group(0, "ENDSEC");
  }

  void label(const Text& text) {
    static const std::map<Align, std::size_t> justified{
        {Align::left, 0}, {Align::centre, 1}, {Align::right, 2}};
    group(0, "TEXT");
    group(8, label_layer);
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
