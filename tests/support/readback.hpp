// Measures a finished PDF from outside: what a page shows is read back from the file by qpdf and
// compared with the lines that the tool says it solved. Nothing of export/ takes part but the table
// of line kinds.
//
// A test of a sheet is one line:
//
//   expect_true_to_paper("out/plain.pdf", lines_json);
//
// Everything is in millimetres from the lower left corner of the page, unless a name says
// otherwise.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "export/drawing/line_kind.hpp"
#include "geometry/plane/point.hpp"

namespace shankline::tests {

inline constexpr double mm_per_point = 25.4 / 72; // ISO 32000-1, 8.3.2.3 (from memory): 1/72 inch

struct PaperBox {
  Point low;
  Point high;
};

/// One continuous line. Curves come flattened, within 0.0005 mm.
struct PaperStroke {
  Polyline points; ///< of a closed one the first is not repeated
  bool closed = false;
  double width = 0;
  double grey = 0;          ///< 0 black to 1 white; less than 0 for a colour or a pattern
  std::vector<double> dash; ///< printer's points, on and off in turn; empty when solid
  double dash_start = 0;
  int cap = 0;                  ///< 0 butt, 1 round, 2 square
  std::optional<PaperBox> clip; ///< nothing is seen outside of it
};

struct PaperFill {
  std::vector<Polygon> rings;
  double grey = 0; ///< as of a stroke
  std::optional<PaperBox> clip;
};

struct TextRun {
  Point origin;
  double size = 0;   ///< printer's points on the page
  std::string bytes; ///< as they stand in the file, in the font's own encoding
};

struct PaperPage {
  PaperBox media;
  std::vector<PaperStroke> strokes;
  std::vector<PaperFill> fills;
  std::vector<TextRun> texts;
  /// Faults that could confuse a printer: a q without Q, a path left open, a rotated or cropped
  /// page.
  std::vector<std::string> faults;
};

struct PaperDocument {
  std::vector<PaperPage> pages;
  bool prints_unscaled = false; ///< the viewer preference "print scaling: none"
  std::string check;            ///< what `qpdf --check` objects to; empty when nothing
};

/// Throws std::runtime_error when the file cannot be read, or draws with an operator that is not
/// measured here (images, forms, shadings).
PaperDocument read_document(const std::filesystem::path& pdf);

/// A page's content stream by itself.
PaperPage read_content(std::string_view operators);

/// By width, grey and dash alone; none when no style is drawn so.
std::optional<LineKind> kind_of(const PaperStroke& stroke);

/// Rules that every sheet must keep.
struct PaperRules {
  double within = 0.01;        ///< of a line that is read back from the line that was solved
  double paper_within = 0.001; ///< of the page's width and height
  double margin = 8;           ///< kept free along the paper's edges
  std::size_t least_templates = 1;
  std::size_t least_lines = 2; ///< of one template
};

struct PaperReport {
  std::vector<std::string> complaints; ///< empty when the file is true
  std::size_t templates = 0;
  std::size_t lines = 0;
  std::size_t points = 0;
  std::size_t bars = 0;
  std::size_t cards = 0;
};

/// `lines_json` is what `--lines` wrote: `templates` with kind, points and placement of every line,
/// `proofs` with the bars and the bank card of every template's page. Complains when
/// - a line is not on its page: as one stroke of its kind, closed as it should be, with the same
///   ends, and each within the limit of the other;
/// - a template's page does not prove its scale: bars of 100 mm along x and along y, and the card's
///   outline of 85.60 x 53.98 mm, each where it should be;
/// - a page is not the size of its paper, something lies in the margin, or a stroke is of no kind;
/// - qpdf objects to the file, or it does not ask for unscaled printing;
/// - less was compared than the rules ask for.
PaperReport compare_with_paper(const PaperDocument& document, std::string_view lines_json,
                               const PaperRules& rules = {});

/// Fails the running test for every complaint, and for words that lie off the paper.
void expect_true_to_paper(const std::filesystem::path& pdf, std::string_view lines_json,
                          const PaperRules& rules = {});

enum class Renderer { poppler, mupdf };

struct RasterBar {
  std::size_t page = 0; ///< from 1
  Point from;           ///< where it should begin and end
  Point to;
  double length = 0; ///< in dark pixels, as millimetres; between the middles of end ticks, if any
  double pixel = 0;  ///< mm
};

/// Draws the page as a viewer would and measures its 100 mm bars (those of `proofs`) in pixels.
std::vector<RasterBar> raster_bars(const std::filesystem::path& pdf, std::string_view lines_json,
                                   std::size_t page, int dpi = 600,
                                   Renderer renderer = Renderer::poppler);

/// Fails the running test when a bar of any page is more than two pixels off, or there is none.
void expect_bars_in_pixels(const std::filesystem::path& pdf, std::string_view lines_json,
                           int dpi = 600, Renderer renderer = Renderer::poppler);

/// The page's words as a reader would copy them, laid out.
std::string page_text(const std::filesystem::path& pdf, std::size_t page);

struct Word {
  std::string text;
  PaperBox box; ///< by the font's height, which is more than the ink's
};

std::vector<Word> page_words(const std::filesystem::path& pdf, std::size_t page);

} // namespace shankline::tests
