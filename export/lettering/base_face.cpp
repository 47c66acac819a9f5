#include "export/lettering/base_face.hpp"

namespace shankline {

// Defined in a file that the build makes from export/faces.
extern const std::span<const unsigned char> shankline_sans;
extern const std::span<const unsigned char> shankline_sans_bold;

namespace {

// Metrics of both faces, in thousandths of the em. export/faces/make_faces.py prints them and the
// tables below.
constexpr int ascent = 725; // without marks above capitals, by the standard
constexpr int descent_of_glyphs = -208;
constexpr int capitals = 688;

const BaseFace regular{
    "ShanklineSans",
    shankline_sans,
    17240,
    {-203, -212, 1000, 878},
    84,
    {278,  278, 355, 556, 556,  889, 667, 191, 333, 333, 389, 584,  278, 333,  278,  278,  556, 556,
     556,  556, 556, 556, 556,  556, 556, 556, 278, 278, 584, 584,  584, 556,  1015, 667,  667, 722,
     722,  667, 611, 778, 722,  278, 500, 667, 556, 833, 722, 778,  667, 778,  722,  667,  611, 722,
     667,  944, 667, 667, 611,  278, 278, 278, 469, 556, 333, 556,  556, 500,  556,  556,  278, 556,
     556,  222, 222, 500, 222,  833, 556, 556, 556, 556, 333, 500,  278, 556,  500,  722,  500, 500,
     500,  334, 260, 334, 584,  0,   556, 556, 222, 556, 333, 1000, 556, 556,  333,  1000, 667, 333,
     1000, 0,   611, 0,   0,    222, 222, 333, 333, 350, 556, 1000, 333, 1000, 500,  333,  944, 0,
     500,  667, 278, 333, 556,  556, 556, 556, 260, 556, 333, 737,  370, 556,  584,  333,  737, 333,
     400,  584, 333, 333, 333,  556, 537, 278, 333, 333, 365, 556,  834, 834,  834,  611,  667, 667,
     667,  667, 667, 667, 1000, 722, 667, 667, 667, 667, 278, 278,  278, 278,  722,  722,  778, 778,
     778,  778, 778, 584, 778,  722, 722, 722, 722, 667, 667, 611,  556, 556,  556,  556,  556, 556,
     889,  500, 556, 556, 556,  556, 278, 278, 278, 278, 556, 556,  556, 556,  556,  556,  556, 584,
     611,  556, 556, 556, 556,  500, 556, 500}};

const BaseFace bold{
    "ShanklineSans-Bold",
    shankline_sans_bold,
    17360,
    {-184, -222, 1000, 896},
    136,
    {278,  333, 474, 556, 556,  889, 722, 238, 333, 333, 389, 584,  278, 333,  278, 278,  556, 556,
     556,  556, 556, 556, 556,  556, 556, 556, 333, 333, 584, 584,  584, 611,  975, 722,  722, 722,
     722,  667, 611, 778, 722,  278, 556, 722, 611, 833, 722, 778,  667, 778,  722, 667,  611, 722,
     667,  944, 667, 667, 611,  333, 278, 333, 584, 556, 333, 556,  611, 556,  611, 556,  333, 611,
     611,  278, 278, 556, 278,  889, 611, 611, 611, 611, 389, 556,  333, 611,  556, 778,  556, 556,
     500,  389, 280, 389, 584,  0,   556, 556, 278, 556, 500, 1000, 556, 556,  333, 1000, 667, 333,
     1000, 0,   611, 0,   0,    278, 278, 500, 500, 350, 556, 1000, 333, 1000, 556, 333,  944, 0,
     500,  667, 278, 333, 556,  556, 556, 556, 280, 556, 333, 737,  370, 556,  584, 333,  737, 333,
     400,  584, 333, 333, 333,  611, 556, 278, 333, 333, 365, 556,  834, 834,  834, 611,  722, 722,
     722,  722, 722, 722, 1000, 722, 667, 667, 667, 667, 278, 278,  278, 278,  722, 722,  778, 778,
     778,  778, 778, 584, 778,  722, 722, 722, 722, 667, 667, 611,  556, 556,  556, 556,  556, 556,
     889,  556, 556, 556, 556,  556, 278, 278, 278, 278, 611, 611,  611, 611,  611, 611,  611, 584,
     611,  611, 611, 611, 611,  556, 611, 556}};

} // namespace

double BaseFace::width(std::string_view codes) const {
  int sum = 0;
  for (const char c : codes) {
    const auto code = static_cast<std::size_t>(static_cast<unsigned char>(c));
    if (code >= first_code) sum += widths[code - first_code];
  }
  return sum;
}

const BaseFace& base_face(Weight weight) {
  return weight == Weight::bold ? bold : regular;
}

std::string font_entries(const BaseFace& face) {
  std::string entries = "/Type /Font\n/Subtype /TrueType\n/BaseFont /";
  entries.append(face.name);
  // The sheets' minus sign is the one character that WinAnsiEncoding lacks.
  entries += "\n/Encoding << /Type /Encoding /BaseEncoding /WinAnsiEncoding"
             " /Differences [129 /minus] >>\n/FirstChar ";
  entries += std::to_string(BaseFace::first_code) + "\n/LastChar 255\n/Widths [";
  for (const short width : face.widths)
    entries += std::to_string(width) + ' ';
  entries.back() = ']';
  return entries + '\n';
}

std::string descriptor_entries(const BaseFace& face) {
  constexpr int nonsymbolic = 32; // the faces hold Latin letters only
  std::string entries = "/Type /FontDescriptor\n/FontName /";
  entries.append(face.name);
  entries += "\n/Flags " + std::to_string(nonsymbolic) + "\n/FontBBox [";
  for (const int side : face.box)
    entries += std::to_string(side) + ' ';
  entries.back() = ']';
  return entries + "\n/ItalicAngle 0\n/Ascent " + std::to_string(ascent) + "\n/Descent " +
         std::to_string(descent_of_glyphs) + "\n/CapHeight " + std::to_string(capitals) +
         "\n/StemV " + std::to_string(face.stem) + '\n';
}

} // namespace shankline
