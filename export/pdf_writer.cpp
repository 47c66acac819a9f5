#include "export/pdf_writer.hpp"

#include "export/winansi.hpp"

#include <cmath>
#include <cstdlib>
#include <hpdf.h>
#include <memory>
#include <numbers>
#include <optional>

namespace shankline {
namespace {

constexpr double points_per_mm = 72.0 / 25.4; // ISO 32000-1, 8.3.2.3: the one place where mm end
constexpr double coordinate_step = 0.01;      // pt, 0.0035 mm: shorter numbers, smaller files

float points(double mm) {
  return static_cast<float>(std::round(mm * points_per_mm / coordinate_step) * coordinate_step);
}

// ISO 32000-1, table 150: a viewer that heeds it offers 100 % first.
constexpr HPDF_UINT print_scaling_none = 32;

/// The library itself goes on without what it did not get.
void* take_memory(HPDF_UINT size) {
  void* const memory = std::malloc(size);
  if (!memory) throw std::bad_alloc();
  return memory;
}

void fail_on_error(HPDF_STATUS error, HPDF_STATUS detail, void*) {
  throw DrawingFault("the PDF library refused the drawing (" + std::to_string(error) + ", " +
                     std::to_string(detail) + ")");
}

class PdfWriter {
public:
  PdfWriter()
      : document_(HPDF_NewEx(fail_on_error, take_memory, std::free, 0, nullptr), HPDF_Free) {
    if (!document_) throw std::bad_alloc();
    // Deflating would take longer than all the drawing, to save 30 KB.
    HPDF_SetCompressionMode(doc(), HPDF_COMP_NONE);
    HPDF_SetViewerPreference(doc(), print_scaling_none);
    regular_ = HPDF_GetFont(doc(), "Helvetica", "WinAnsiEncoding");
    bold_ = HPDF_GetFont(doc(), "Helvetica-Bold", "WinAnsiEncoding");
  }

  std::string write(const Drawing& drawing) {
    if (drawing.pages.empty()) throw DrawingFault("a drawing without a page");
    info(HPDF_INFO_TITLE, drawing.title);
    info(HPDF_INFO_AUTHOR, drawing.author);
    info(HPDF_INFO_SUBJECT, drawing.subject);
    for (const Page& page : drawing.pages)
      add_page(page);
    return saved();
  }

private:
  HPDF_Doc doc() const { return document_.get(); }

  void info(HPDF_InfoType type, const std::string& words) {
    HPDF_SetInfoAttr(doc(), type, to_winansi(words).bytes.c_str());
  }

  void add_page(const Page& page) {
    paper_ = page.paper;
    page_ = HPDF_AddPage(doc());
    HPDF_Page_SetWidth(page_, static_cast<float>(paper_.width * points_per_mm));
    HPDF_Page_SetHeight(page_, static_cast<float>(paper_.height * points_per_mm));
    HPDF_Page_SetLineCap(page_, HPDF_BUTT_END);
    HPDF_Page_SetLineJoin(page_, HPDF_ROUND_JOIN);
    kind_.reset();
    HPDF_Outline bookmark =
        HPDF_CreateOutline(doc(), nullptr, to_winansi(page.title).bytes.c_str(), nullptr);
    HPDF_Outline_SetDestination(bookmark, HPDF_Page_CreateDestination(page_));
    for (const Mark& mark : page.marks) {
      if (const auto* line = std::get_if<Stroke>(&mark)) add(*line);
      if (const auto* words = std::get_if<Text>(&mark)) add(*words);
    }
    stroke_path();
  }

  /// Lines of one kind that follow one another are one path: a ruler is one stroke, not a hundred.
  void stroke_path() {
    if (in_path_) HPDF_Page_Stroke(page_);
    in_path_ = false;
  }

  /// The PDF library writes NaN and clamps what is too large without a word.
  void require_on_page(const Point& p) const {
    const bool on_page = std::isfinite(p.x) && std::isfinite(p.y) && p.x >= unprintable &&
                         p.y >= unprintable && p.x <= paper_.width - unprintable &&
                         p.y <= paper_.height - unprintable;
    if (!on_page)
      throw DrawingFault("a point lies off the printable page: " + std::to_string(p.x) + ", " +
                         std::to_string(p.y));
  }

  void set_style(LineKind kind) {
    if (kind_ == kind) return;
    kind_ = kind;
    const LineStyle& style = line_style(kind);
    HPDF_Page_SetLineWidth(page_, static_cast<float>(style.width * points_per_mm));
    HPDF_Page_SetGrayStroke(page_, static_cast<float>(style.grey));
    std::array<HPDF_UINT16, 6> dash{};
    HPDF_UINT count = 0;
    for (const int part : style.dash)
      if (part > 0) dash[count++] = static_cast<HPDF_UINT16>(part);
    HPDF_Page_SetDash(page_, count ? dash.data() : nullptr, count, 0);
  }

  void add(const Stroke& line) {
    if (line.points.size() < 2) throw DrawingFault("a line of fewer than two points");
    for (const Point& p : line.points)
      require_on_page(p);
    if (kind_ != line.kind) stroke_path();
    set_style(line.kind);
    in_path_ = true;
    HPDF_Page_MoveTo(page_, points(line.points[0].x), points(line.points[0].y));
    for (std::size_t i = 1; i < line.points.size(); ++i)
      HPDF_Page_LineTo(page_, points(line.points[i].x), points(line.points[i].y));
    if (line.closed) HPDF_Page_ClosePath(page_);
  }

  void add(const Text& text) {
    if (!std::isfinite(text.size) || text.size <= 0 || text.size > 100 ||
        !std::isfinite(text.angle))
      throw DrawingFault("a text without a size: " + text.words);
    stroke_path();
    const HPDF_Font font = text.weight == Weight::bold ? bold_ : regular_;
    const std::string bytes = to_winansi(text.words).bytes;
    const float size = static_cast<float>(text.size * points_per_mm);
    HPDF_Page_BeginText(page_);
    HPDF_Page_SetFontAndSize(page_, font, size);
    const double width = HPDF_Page_TextWidth(page_, bytes.c_str()) / points_per_mm;
    const double back = text.align == Align::left     ? 0
                        : text.align == Align::centre ? width / 2
                                                      : width;
    const double angle = text.angle * std::numbers::pi / 180;
    const double c = std::cos(angle);
    const double s = std::sin(angle);
    const Point start{text.at.x - back * c, text.at.y - back * s};
    require_on_page(start);
    require_on_page({start.x + width * c, start.y + width * s});
    if (text.angle == 0)
      HPDF_Page_MoveTextPos(page_, points(start.x), points(start.y));
    else
      HPDF_Page_SetTextMatrix(page_, static_cast<float>(c), static_cast<float>(s),
                              static_cast<float>(-s), static_cast<float>(c), points(start.x),
                              points(start.y));
    HPDF_Page_ShowText(page_, bytes.c_str());
    HPDF_Page_EndText(page_);
  }

  /// Through memory: the library's own saving loses a file on a full disk without a word.
  std::string saved() {
    HPDF_SaveToStream(doc());
    HPDF_ResetStream(doc());
    std::string bytes(HPDF_GetStreamSize(doc()), '\0');
    HPDF_UINT32 size = static_cast<HPDF_UINT32>(bytes.size());
    HPDF_ReadFromStream(doc(), reinterpret_cast<HPDF_BYTE*>(bytes.data()), &size);
    bytes.resize(size);
    if (bytes.empty()) throw DrawingFault("the PDF library wrote nothing");
    return bytes;
  }

  std::unique_ptr<std::remove_pointer_t<HPDF_Doc>, decltype(&HPDF_Free)> document_;
  HPDF_Font regular_ = nullptr;
  HPDF_Font bold_ = nullptr;
  HPDF_Page page_ = nullptr;
  Paper paper_{};
  std::optional<LineKind> kind_;
  bool in_path_ = false; ///< lines of kind_ not yet stroked
};

} // namespace

std::string pdf_bytes(const Drawing& drawing) {
  return PdfWriter().write(drawing);
}

} // namespace shankline
