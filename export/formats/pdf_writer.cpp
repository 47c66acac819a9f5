#include "export/formats/pdf_writer.hpp"

#include "export/drawing/inch.hpp"
#include "export/formats/content_stream.hpp"
#include "export/lettering/base_face.hpp"
#include "export/lettering/character_map.hpp"
#include "export/lettering/code_point.hpp"
#include "export/lettering/face_file.hpp"
#include "geometry/numerics/degree.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <deque>
#include <hpdf.h>
#include <hpdf_objects.h>
#include <hpdf_pages.h>
#include <memory>
#include <optional>

namespace shankline {
namespace {

constexpr double points_per_mm =
    72.0 / mm_per_inch; // ISO 32000-1, 8.3.2.3: the one place where mm end

double points(double mm) {
  return mm * points_per_mm;
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

/// PDFDocEncoding and Latin 1 agree on these (ISO 32000-1, annex D.3).
bool is_short(char32_t c) {
  return (c >= 0x20 && c < 0x7f) || (c > 0xa0 && c <= 0xff && c != 0xad);
}

/// Titles and bookmarks: a byte a character where that suffices, else UTF-8, which the library
/// turns into UTF-16 of the basic plane.
struct TextString {
  std::string bytes;
  bool is_utf8 = false;

  explicit TextString(const std::string& words) {
    const std::u32string characters = code_points(words);
    is_utf8 = !std::all_of(characters.begin(), characters.end(), is_short);
    for (const char32_t c : characters)
      if (is_utf8)
        bytes += to_utf8(c > 0xffff ? U'?' : c);
      else
        bytes += static_cast<char>(static_cast<unsigned char>(c));
  }
};

class PdfWriter {
public:
  PdfWriter()
      : document_(HPDF_NewEx(fail_on_error, take_memory, std::free, 0, nullptr), HPDF_Free) {
    if (!document_) throw std::bad_alloc();
    // Deflating would take longer than all the drawing, to save 30 KB.
    HPDF_SetCompressionMode(doc(), HPDF_COMP_NONE);
    HPDF_SetViewerPreference(doc(), print_scaling_none);
  }

  /// Before the first page.
  void begin(const Drawing& drawing) {
    margin_ = drawing.margin;
    use_faces(drawing.lettering);
    add_info(drawing);
  }

  void add_page(const Page& page) {
    add_label(page.label);
    paper_ = page.paper;
    page_ = HPDF_AddPage(doc());
    HPDF_Page_SetWidth(page_, static_cast<float>(points(paper_.width)));
    HPDF_Page_SetHeight(page_, static_cast<float>(points(paper_.height)));
    content_.butt_caps_and_round_joins();
    kind_.reset();
    regular_name_.clear();
    bold_name_.clear();
    add_bookmark(page.title);
    for (const Mark& mark : page.marks) {
      if (const auto* line = std::get_if<Stroke>(&mark)) add(*line);
      if (const auto* words = std::get_if<Text>(&mark)) add(*words);
    }
    stroke_path();
    put_content();
  }

  std::string end() {
    if (!page_) throw DrawingFault("a drawing without a page");
    put_labels();
    return saved();
  }

private:
  struct Pair {
    HPDF_Font regular = nullptr;
    HPDF_Font bold = nullptr;
  };

  /// Returns the width of the run, in em.
  double width_of(const LetterRun& run, Weight weight) {
    if (!run.face) return base_face(weight).width(run.bytes) / 1000.0;
    return HPDF_Font_TextWidth(font_of(*run.face, weight),
                               reinterpret_cast<const HPDF_BYTE*>(run.bytes.data()),
                               static_cast<HPDF_UINT>(run.bytes.size()))
               .width /
           1000.0;
  }

  HPDF_Doc doc() const { return document_.get(); }

  void use_faces(const Lettering& lettering) {
    lettering_ = &lettering;
    faces_.resize(lettering.faces.size());
    if (!faces_.empty()) HPDF_SetCompressionMode(doc(), HPDF_COMP_METADATA); // faces only
  }

  /// Faces are loaded when a text needs them: most names are nowhere in bold.
  HPDF_Font font_of(std::size_t number, Weight weight) {
    Pair& pair = faces_[number];
    HPDF_Font& font = weight == Weight::bold ? pair.bold : pair.regular;
    if (font) return font;
    const Face& face = lettering_->faces[number];
    const bool one_for_both = face.bold == face.regular;
    font = load(weight == Weight::bold ? face.bold : face.regular, face.shows);
    if (one_for_both) pair = {font, font};
    return font;
  }

  /// The list of the file's objects, which no public function gives. Public ones give what stands
  /// before and after it: a library that was rearranged is refused, not written into.
  HPDF_Xref objects() const {
    if (doc()->mmgr != page_->mmgr || doc()->cur_page != HPDF_GetCurrentPage(doc()))
      throw DrawingFault("the PDF library is not the one that this program was built for");
    return doc()->xref;
  }

  /// Entries are written as they stand here: the library's own way makes an object of every width.
  void add_entries(HPDF_Dict dictionary, std::string entries) {
    dictionary->attr = &entries_.emplace_back(std::move(entries));
    dictionary->write_fn = [](HPDF_Dict written, HPDF_Stream file) {
      const auto& words = *static_cast<const std::string*>(written->attr);
      return HPDF_Stream_Write(file, reinterpret_cast<const HPDF_BYTE*>(words.data()),
                               static_cast<HPDF_UINT>(words.size()));
    };
  }

  HPDF_Dict add_dictionary(std::string entries) {
    const HPDF_Xref all = objects();
    const HPDF_Dict dictionary = HPDF_Dict_New(page_->mmgr);
    HPDF_Xref_Add(all, dictionary);
    add_entries(dictionary, std::move(entries));
    return dictionary;
  }

  /// The base face, put into the file when a text needs it, as it is: the library would take it
  /// apart and deflate it anew every time.
  HPDF_Dict base_font(Weight weight) {
    HPDF_Dict& font = weight == Weight::bold ? base_.bold : base_.regular;
    if (font) return font;
    const BaseFace& face = base_face(weight);
    const HPDF_Dict file = HPDF_DictStream_New(page_->mmgr, objects());
    HPDF_Stream_Write(file->stream, face.deflated.data(),
                      static_cast<HPDF_UINT>(face.deflated.size()));
    file->filter = HPDF_STREAM_FILTER_NONE; // the library has nothing left to do
    add_entries(file, "/Filter /FlateDecode\n/Length1 " + std::to_string(face.length) + '\n');
    const HPDF_Dict descriptor = add_dictionary(descriptor_entries(face));
    HPDF_Dict_Add(descriptor, "FontFile2", file);
    font = add_dictionary(font_entries(face));
    HPDF_Dict_Add(font, "FontDescriptor", descriptor);
    return font;
  }

  void use_utf8() {
    if (!utf8_) HPDF_UseUTFEncodings(doc());
    utf8_ = true;
  }

  HPDF_Font load(const FaceFile& face, std::u32string_view characters) {
    use_utf8();
    const char* name = is_collection(face)
                           ? HPDF_LoadTTFontFromFile2(doc(), face.path.c_str(),
                                                      static_cast<HPDF_UINT>(face.index), HPDF_TRUE)
                           : HPDF_LoadTTFontFromFile(doc(), face.path.c_str(), HPDF_TRUE);
    const HPDF_Font font = HPDF_GetFont(doc(), name, "UTF-8");
    auto* map = static_cast<HPDF_Dict>(HPDF_Dict_GetItem(font, "ToUnicode", HPDF_OCLASS_DICT));
    if (!map || !map->stream) throw DrawingFault("a face without a map of its characters");
    HPDF_MemStream_FreeData(map->stream);
    HPDF_Stream_WriteStr(map->stream, character_map(characters).c_str());
    return font;
  }

  /// Texts that need UTF-16 come last, since the library's encoder cannot be unset.
  void add_info(const Drawing& drawing) {
    const std::array<std::pair<HPDF_InfoType, TextString>, 3> entries{
        {{HPDF_INFO_TITLE, TextString(drawing.title)},
         {HPDF_INFO_AUTHOR, TextString(drawing.author)},
         {HPDF_INFO_SUBJECT, TextString(drawing.subject)}}};
    for (const auto& [type, text] : entries)
      if (!text.is_utf8) HPDF_SetInfoAttr(doc(), type, text.bytes.c_str());
    for (const auto& [type, text] : entries) {
      if (!text.is_utf8) continue;
      use_utf8();
      HPDF_SetCurrentEncoder(doc(), "UTF-8");
      HPDF_SetInfoAttr(doc(), type, text.bytes.c_str());
    }
    if (drawing.created) add_date(*drawing.created);
  }

  void add_date(std::int64_t created) {
    using namespace std::chrono;
    const sys_seconds moment{seconds(created)};
    const sys_days day = floor<days>(moment);
    const year_month_day date{day};
    const hh_mm_ss time{moment - day};
    HPDF_Date stamp{};
    stamp.year = static_cast<int>(date.year());
    stamp.month = static_cast<int>(static_cast<unsigned>(date.month()));
    stamp.day = static_cast<int>(static_cast<unsigned>(date.day()));
    stamp.hour = static_cast<int>(time.hours().count());
    stamp.minutes = static_cast<int>(time.minutes().count());
    stamp.seconds = static_cast<int>(time.seconds().count());
    stamp.ind = 'Z';
    HPDF_SetInfoDateAttr(doc(), HPDF_INFO_CREATION_DATE, stamp);
  }

  void add_bookmark(const std::string& title) {
    const TextString text(title);
    if (text.is_utf8) use_utf8();
    const HPDF_Encoder encoder = text.is_utf8 ? HPDF_GetEncoder(doc(), "UTF-8") : nullptr;
    const HPDF_Outline bookmark = HPDF_CreateOutline(doc(), nullptr, text.bytes.c_str(), encoder);
    HPDF_Outline_SetDestination(bookmark, HPDF_Page_CreateDestination(page_));
  }

  /// Pages of one part that follow one another are counted: "order 1", "order 2", "board L 1".
  void add_label(const std::string& label) {
    if (pages_ == 0 || label != labels_.back().words) labels_.push_back({pages_, label});
    ++pages_;
  }

  /// Last, as they stand behind the pages in the file.
  void put_labels() {
    for (const auto& [page, words] : labels_)
      HPDF_AddPageLabel(doc(), page, HPDF_PAGE_NUM_STYLE_DECIMAL, words.empty() ? page + 1 : 1,
                        (words.empty() ? words : words + " ").c_str());
  }

  /// The library goes on behind what is on the page so far.
  void put_content() {
    const std::string bytes = content_.take();
    content_size_ += bytes.size();
    const auto contents =
        static_cast<HPDF_Dict>(HPDF_Dict_GetItem(page_, "Contents", HPDF_OCLASS_DICT));
    if (!contents || !contents->stream) throw DrawingFault("a page without contents");
    HPDF_Stream_Write(contents->stream, reinterpret_cast<const HPDF_BYTE*>(bytes.data()),
                      static_cast<HPDF_UINT>(bytes.size()));
  }

  /// Lines of one kind that follow one another are one path: a ruler is one stroke, not a hundred.
  void stroke_path() {
    if (in_path_) content_.stroke();
    in_path_ = false;
  }

  void require_on_page(const Point& p) const {
    const bool on_page = std::isfinite(p.x) && std::isfinite(p.y) && p.x >= margin_ &&
                         p.y >= margin_ && p.x <= paper_.width - margin_ &&
                         p.y <= paper_.height - margin_;
    if (!on_page)
      throw DrawingFault("a point lies off the printable page: " + std::to_string(p.x) + ", " +
                         std::to_string(p.y));
  }

  void set_style(LineKind kind) {
    if (kind_ == kind) return;
    kind_ = kind;
    const LineStyle& style = line_style(kind);
    content_.line_width(points(style.width));
    content_.stroke_grey(style.grey);
    const auto end = std::find(style.dash.begin(), style.dash.end(), 0);
    content_.dash({style.dash.begin(), end});
  }

  void add(const Stroke& line) {
    if (line.points.size() < 2) throw DrawingFault("a line of fewer than two points");
    for (const Point& p : line.points)
      require_on_page(p);
    if (kind_ != line.kind) stroke_path();
    set_style(line.kind);
    in_path_ = true;
    content_.move_to(points(line.points[0].x), points(line.points[0].y));
    for (std::size_t i = 1; i < line.points.size(); ++i)
      content_.line_to(points(line.points[i].x), points(line.points[i].y));
    if (line.closed) content_.close_path();
  }

  void add(const Text& text) {
    if (!std::isfinite(text.size) || text.size <= 0 || text.size > 100 ||
        !std::isfinite(text.angle))
      throw DrawingFault("a text without a size: " + text.words);
    stroke_path();
    const std::vector<LetterRun> runs = letter_runs(text.words, *lettering_);
    double width = 0;
    for (const LetterRun& run : runs)
      width += width_of(run, text.weight) * text.size;
    const double back = before_anchor(text.align, width);
    const double angle = text.angle * degree;
    const double c = std::cos(angle);
    const double s = std::sin(angle);
    const Point start{text.at.x - back * c, text.at.y - back * s};
    require_on_page(start);
    require_on_page({start.x + width * c, start.y + width * s});
    const ContentStream::TextPlace place{points(start.x), points(start.y), c, s};
    if (runs.size() == 1 && !runs[0].face)
      content_.text(name_of(text.weight), points(text.size), place, runs[0].bytes);
    else
      add_runs(runs, text.weight, points(text.size), place);
  }

  /// Returns the name of the base face among the resources of this page.
  const std::string& name_of(Weight weight) {
    std::string& name = weight == Weight::bold ? bold_name_ : regular_name_;
    if (name.empty()) name = HPDF_Page_GetLocalFontName(page_, base_font(weight));
    return name;
  }

  /// Only libharu knows the glyph codes of an embedded face, so these runs go through its
  /// functions.
  void add_runs(const std::vector<LetterRun>& runs, Weight weight, double size,
                const ContentStream::TextPlace& place) {
    put_content();
    const auto single = [](double value) { return static_cast<float>(value); };
    HPDF_Page_BeginText(page_);
    HPDF_Page_SetTextMatrix(page_, single(place.cosine), single(place.sine), single(-place.sine),
                            single(place.cosine), single(place.x), single(place.y));
    for (const LetterRun& run : runs) {
      if (!run.face) {
        content_.text_run(name_of(weight), size, run.bytes);
        put_content();
        continue;
      }
      HPDF_Page_SetFontAndSize(page_, font_of(*run.face, weight), single(size));
      HPDF_Page_ShowText(page_, run.bytes.c_str());
    }
    HPDF_Page_EndText(page_);
  }

  /// Through memory: the library's own saving loses a file on a full disk without a word. Into a
  /// text of ours: the library would put all of it into memory of its own first.
  std::string saved() {
    std::string bytes;
    bytes.reserve(content_size_ + pages_ * entries_of_a_page + all_else);
    const auto take = [](HPDF_Stream file, const HPDF_BYTE* piece, HPDF_UINT size) -> HPDF_STATUS {
      auto& into = *static_cast<std::string*>(file->attr);
      into.append(reinterpret_cast<const char*>(piece), size);
      return HPDF_OK;
    };
    if (doc()->stream) throw DrawingFault("the PDF library has saved the file already");
    doc()->stream = HPDF_CallbackWriter_New(doc()->mmgr, take, &bytes);
    HPDF_SaveToStream(doc());
    if (bytes.empty()) throw DrawingFault("the PDF library wrote nothing");
    return bytes;
  }

  struct Label {
    HPDF_UINT page; ///< the first of these, from 0
    std::string words;
  };

  static constexpr std::size_t entries_of_a_page = 1024; // bytes, about
  static constexpr std::size_t all_else = 65536;

  std::unique_ptr<std::remove_pointer_t<HPDF_Doc>, decltype(&HPDF_Free)> document_;
  Pair base_;                       ///< of the base face; null until a text needs it
  std::deque<std::string> entries_; ///< of dictionaries; they stay where they are
  std::vector<Pair> faces_;         ///< as the lettering's; null until a text needs it
  const Lettering* lettering_ = nullptr;
  bool utf8_ = false; ///< the library knows UTF-8
  HPDF_Page page_ = nullptr;
  HPDF_UINT pages_ = 0;          ///< so far
  std::vector<Label> labels_;    ///< where they change
  std::size_t content_size_ = 0; ///< bytes, of all pages so far
  Paper paper_{};
  double margin_ = unprintable;
  ContentStream content_;    ///< of page_, not yet given to it
  std::string regular_name_; ///< of the base face on page_; empty until a text needs one
  std::string bold_name_;
  std::optional<LineKind> kind_;
  bool in_path_ = false; ///< lines of kind_ not yet stroked
};

} // namespace

std::string pdf_bytes(const Drawing& drawing) {
  PdfWriter writer;
  writer.begin(drawing);
  for (const Page& page : drawing.pages)
    writer.add_page(page);
  return writer.end();
}

std::string pdf_bytes(const Drawing& frame, std::size_t pages,
                      const std::function<Page(std::size_t)>& page) {
  PdfWriter writer;
  writer.begin(frame);
  for (std::size_t i = 0; i < pages; ++i)
    writer.add_page(page(i));
  return writer.end();
}

} // namespace shankline
