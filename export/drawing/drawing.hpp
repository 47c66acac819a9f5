// A drawing in millimetres: pages of strokes and texts, before any file format.
//
//   Page page{*read_paper("a4"), "Test", {}};
//   page.marks.push_back(Stroke{LineKind::frame, {{20, 20}, {120, 20}}, false}); // 100 mm long
//   page.marks.push_back(Text{{20, 24}, "100 mm"});
//   Drawing drawing;
//   drawing.pages.push_back(page);
//   const std::string bytes = pdf_bytes(drawing); // export/formats/pdf_writer.hpp
#pragma once

#include "export/drawing/line_kind.hpp"
#include "export/drawing/paper.hpp"
#include "export/lettering/lettering.hpp"
#include "export/lettering/text_style.hpp"
#include "geometry/plane/point.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace shankline {

/// Page coordinates: millimetres from the lower left corner, y upwards.
struct Stroke {
  LineKind kind = LineKind::frame;
  Polyline points;
  bool closed = false;
};

/// One line of text in UTF-8. `at` is on the baseline: its left end, middle or right end.
struct Text {
  Point at;
  std::string words;
  double size = 3; ///< em, mm
  Weight weight = Weight::regular;
  Align align = Align::left;
  double angle = 0; ///< degrees, counter-clockwise
};

using Mark = std::variant<Stroke, Text>;

struct Page {
  Paper paper{};
  std::string title; ///< for the bookmark: "Board, left foot"
  std::vector<Mark> marks;
  std::string label{}; ///< name in a viewer instead of a number: "board L"; ASCII
};

struct Drawing {
  std::string title;
  std::string author;
  std::string subject;
  std::vector<Page> pages;
  Lettering lettering;
  double margin = unprintable; ///< mm along the edges; the writer refuses marks in it
  /// Seconds since 1970-01-01 00:00 UTC; absent: the file carries no date.
  std::optional<std::int64_t> created;
};

} // namespace shankline
