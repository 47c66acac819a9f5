#include "export/formats/svg_writer.hpp"

#include "export/lettering/code_point.hpp"
#include "geometry/order/figure.hpp"

#include <map>
#include <string_view>
#include <vector>

namespace shankline {
namespace {

std::string number(double value) {
  return figure(value, 4);
}

std::string hexadecimal(const ScreenColour& colour) {
  constexpr std::string_view digits = "0123456789abcdef";
  std::string hex = "#";
  for (const int part : {colour.red, colour.green, colour.blue})
    hex +=
        {digits[static_cast<std::size_t>(part / 16)], digits[static_cast<std::size_t>(part % 16)]};
  return hex;
}

class SvgWriter {
public:
  SvgWriter(const PartDrawing& part, const std::string& title) : part_(part), title_(title) {}

  std::string bytes() && {
    head();
    texts(label_layer, "what it is", part_.labels, "#000000");
    texts(name_layer, "names of the lines", part_.names, hexadecimal(screen_colour(name_colour)));
    for (const LineStyle& style : line_styles())
      layer(style);
    svg_ += "</svg>\n";
    return std::move(svg_);
  }

private:
  void head() {
    const std::string width = number(part_.width);
    const std::string height = number(part_.height);
    svg_ +=
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<svg xmlns=\"http://www.w3.org/2000/svg\" "
        "xmlns:inkscape=\"http://www.inkscape.org/namespaces/inkscape\" version=\"1.1\" width=\"" +
        width + "mm\" height=\"" + height + "mm\" viewBox=\"0 0 " + width + " " + height +
        "\">\n<title>" + xml_text(title_) + "</title>\n<desc>1 unit is 1 mm</desc>\n";
  }

  /// The file's y runs downwards.
  std::string place(Point p, const char* between) const {
    return number(p.x) + between + number(part_.height - p.y);
  }

  /// Many programs take a group for a layer by these attributes alone.
  void begin_layer(std::string_view name, std::string_view words, const std::string& look) {
    svg_ += "<g id=\"" + std::string(name) + "\" inkscape:groupmode=\"layer\" inkscape:label=\"" +
            std::string(name) + "\" " + look + ">\n<title>" + xml_text(words) + "</title>\n";
  }

  void texts(const char* layer, const char* words, const std::vector<Text>& texts,
             const std::string& colour) {
    if (texts.empty()) return;
    static const std::map<Align, std::string> anchors{
        {Align::left, "start"}, {Align::centre, "middle"}, {Align::right, "end"}};
    begin_layer(layer, words,
                "font-family=\"Helvetica, Arial, sans-serif\" fill=\"" + colour + "\"");
    for (const Text& text : texts) {
      svg_ += "<text x=\"" + place(text.at, "\" y=\"") + "\" font-size=\"" + number(text.size) +
              "\" text-anchor=\"" + anchors.at(text.align) + "\"";
      if (text.weight == Weight::bold) svg_ += " font-weight=\"bold\"";
      if (text.angle != 0)
        svg_ += " transform=\"rotate(" + number(-text.angle) + " " + place(text.at, " ") + ")\"";
      svg_ += ">" + xml_text(text.words) + "</text>\n";
    }
    svg_ += "</g>\n";
  }

  void layer(const LineStyle& style) {
    std::string lines;
    for (const Stroke& line : part_.lines) {
      if (line.kind != style.kind) continue;
      lines += line.closed ? "<polygon points=\"" : "<polyline points=\"";
      for (const Point& p : line.points)
        lines += (&p == &line.points.front() ? "" : " ") + place(p, ",");
      lines += "\"/>\n";
    }
    if (lines.empty()) return;
    begin_layer(style.name, style.words,
                "fill=\"none\" stroke=\"" + hexadecimal(screen_colour(style.colour)) +
                    "\" stroke-width=\"" + number(style.width) + "\"");
    svg_ += lines + "</g>\n";
  }

  const PartDrawing& part_;
  const std::string& title_;
  std::string svg_;
};

} // namespace

std::string xml_text(std::string_view words) {
  static const std::map<char, std::string> entities{
      {'&', "&amp;"}, {'<', "&lt;"}, {'>', "&gt;"}, {'"', "&quot;"}};
  std::string xml;
  while (!words.empty()) {
    const auto [code, length] = next_code_point(words);
    const std::string_view character = words.substr(0, length);
    words.remove_prefix(length);
    if (is_control(code)) {
      xml += ' ';
    } else if (code == 0xfffd) {
      xml += "\xef\xbf\xbd";
    } else if (const auto entity = entities.find(character[0]); entity != entities.end()) {
      xml += entity->second;
    } else {
      xml += character;
    }
  }
  return xml;
}

std::string svg_bytes(const PartDrawing& part, const std::string& title) {
  return SvgWriter(part, title).bytes();
}

} // namespace shankline
