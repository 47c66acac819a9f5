// The least that a program can do which reads an order and prints a set of sheets: start with the
// same libraries, read the file, draw pages of the same load, and put them safely on the disk. What
// `shankline cut` takes is measured against this in one run.
#include "export/lettering/base_face.hpp"

#include <cerrno>
#include <CLI/CLI.hpp>
#include <cmath>
#include <cstdio>
#include <fcntl.h>
#include <hpdf.h>
#include <hpdf_objects.h>
#include <iostream>
#include <memory>
#include <stdexcept>
#include <string>
#include <system_error>
#include <unistd.h>
#include <vector>
#include <yaml-cpp/yaml.h>

namespace {

// The load of a page: 30 polylines with 600 vertices together, 60 strings.
constexpr int polylines = 30;
constexpr int vertices = 20;
constexpr int strings = 60;
constexpr float points_per_mm = 72.0F / 25.4F;

struct PdfDeleter {
  void operator()(HPDF_Doc pdf) const { HPDF_Free(pdf); }
};
using Pdf = std::unique_ptr<std::remove_pointer_t<HPDF_Doc>, PdfDeleter>;

void on_error(HPDF_STATUS error, HPDF_STATUS detail, void*) {
  throw std::runtime_error("libharu: " + std::to_string(error) + ", " + std::to_string(detail));
}

/// Every number in the order, so that reading cannot be left out.
void collect(const YAML::Node& node, std::vector<float>& numbers) {
  if (node.IsScalar()) {
    float value = 0;
    if (YAML::convert<float>::decode(node, value) && std::isfinite(value))
      numbers.push_back(std::fmod(std::abs(value), 40.0F));
  } else if (node.IsMap()) {
    for (const auto& pair : node)
      collect(pair.second, numbers);
  } else {
    for (const auto& child : node)
      collect(child, numbers);
  }
}

/// Written behind the library's own entries of a dictionary.
void add_entries(HPDF_Dict dictionary, std::string& entries) {
  dictionary->attr = &entries;
  dictionary->write_fn = [](HPDF_Dict written, HPDF_Stream file) {
    return HPDF_Stream_WriteStr(file, static_cast<const std::string*>(written->attr)->c_str());
  };
}

/// The face that every sheet carries, put into the file as it is. The library draws with a base
/// font of the same widths, which becomes this face in the file.
template <shankline::Weight weight> class CarriedFace {
public:
  CarriedFace(HPDF_Doc pdf, const char* name,
              const shankline::BaseFace& face = shankline::base_face(weight))
      : font_(HPDF_GetFont(pdf, name, "WinAnsiEncoding")),
        file_entries_("/Filter /FlateDecode\n/Length1 " + std::to_string(face.length) + '\n'),
        descriptor_entries_(shankline::descriptor_entries(face)) {
    const HPDF_Dict file = HPDF_DictStream_New(font_->mmgr, pdf->xref);
    HPDF_Stream_Write(file->stream, face.deflated.data(),
                      static_cast<HPDF_UINT>(face.deflated.size()));
    add_entries(file, file_entries_);
    const HPDF_Dict descriptor = HPDF_Dict_New(font_->mmgr);
    HPDF_Xref_Add(pdf->xref, descriptor);
    add_entries(descriptor, descriptor_entries_);
    HPDF_Dict_Add(descriptor, "FontFile2", file);
    for (const char* old : {"Type", "Subtype", "BaseFont"})
      HPDF_Dict_RemoveElement(font_, old);
    HPDF_Dict_Add(font_, "FontDescriptor", descriptor);
    font_->write_fn = [](HPDF_Dict, HPDF_Stream stream) { // its attr is the library's
      return HPDF_Stream_WriteStr(stream,
                                  shankline::font_entries(shankline::base_face(weight)).c_str());
    };
  }
  CarriedFace(const CarriedFace&) = delete;
  CarriedFace& operator=(const CarriedFace&) = delete;

  HPDF_Font font() const { return font_; }

private:
  HPDF_Font font_;
  std::string file_entries_; ///< these two are read when the file is saved
  std::string descriptor_entries_;
};

void draw_page(HPDF_Doc pdf, HPDF_Font font, HPDF_Font bold, const std::vector<float>& numbers) {
  const HPDF_Page page = HPDF_AddPage(pdf);
  HPDF_Page_SetWidth(page, 210 * points_per_mm);
  HPDF_Page_SetHeight(page, 297 * points_per_mm);
  std::size_t next = 0;
  const auto number = [&] { return numbers[next++ % numbers.size()]; };
  for (int line = 0; line < polylines; ++line) {
    HPDF_Page_SetLineWidth(page, 0.3F + 0.05F * static_cast<float>(line));
    HPDF_Page_SetGrayStroke(page, 0.02F * static_cast<float>(line));
    const float base = 20 + 8 * static_cast<float>(line);
    for (int vertex = 0; vertex < vertices; ++vertex) {
      const float x = (15 + 9 * static_cast<float>(vertex)) * points_per_mm;
      const float y = (base + 0.1F * number()) * points_per_mm;
      if (vertex == 0)
        HPDF_Page_MoveTo(page, x, y);
      else
        HPDF_Page_LineTo(page, x, y);
    }
    HPDF_Page_Stroke(page);
  }
  HPDF_Page_BeginText(page);
  for (int line = 0; line < strings; ++line) {
    if (line < 2) HPDF_Page_SetFontAndSize(page, line == 0 ? bold : font, 9); // a heading
    char text[64];
    std::snprintf(text, sizeof text, "cut off %.1f mm, keep %.1f mm", static_cast<double>(number()),
                  static_cast<double>(number()));
    HPDF_Page_TextOut(page, 20 * points_per_mm, (20 + 4 * static_cast<float>(line)) * points_per_mm,
                      text);
  }
  HPDF_Page_EndText(page);
}

std::vector<unsigned char> bytes_of(HPDF_Doc pdf) {
  HPDF_SaveToStream(pdf);
  HPDF_UINT32 size = HPDF_GetStreamSize(pdf);
  std::vector<unsigned char> bytes(size);
  HPDF_ResetStream(pdf);
  HPDF_ReadFromStream(pdf, bytes.data(), &size);
  bytes.resize(size);
  return bytes;
}

void save(const std::vector<unsigned char>& bytes, const std::string& path) {
  const auto need = [&path](bool done) {
    if (!done) throw std::system_error(errno, std::generic_category(), path);
  };
  std::string temporary = path + ".XXXXXX";
  const int file = ::mkstemp(temporary.data());
  need(file >= 0);
  for (std::size_t done = 0; done < bytes.size();) {
    const ssize_t gone = ::write(file, bytes.data() + done, bytes.size() - done);
    need(gone >= 0);
    done += static_cast<std::size_t>(gone);
  }
  need(::fsync(file) == 0);
  need(::close(file) == 0);
  need(::rename(temporary.c_str(), path.c_str()) == 0);
}

} // namespace

int main(int argc, char** argv) {
  CLI::App app("Reads an order and draws pages of an everyday load");
  std::string order;
  std::string out;
  int pages = 0;
  app.add_option("ORDER", order)->required()->check(CLI::ExistingFile);
  app.add_option("PAGES", pages)->required()->check(CLI::Range(1, 1000));
  app.add_option("-o", out)->required();
  CLI11_PARSE(app, argc, argv);
  try {
    std::vector<float> numbers;
    collect(YAML::LoadFile(order), numbers);
    if (numbers.empty()) throw std::runtime_error(order + " holds no numbers");
    const Pdf pdf(HPDF_New(on_error, nullptr));
    HPDF_SetCompressionMode(pdf.get(), HPDF_COMP_ALL);
    using shankline::Weight;
    const CarriedFace<Weight::regular> regular(pdf.get(), "Helvetica");
    const CarriedFace<Weight::bold> bold(pdf.get(), "Helvetica-Bold");
    for (int page = 0; page < pages; ++page)
      draw_page(pdf.get(), regular.font(), bold.font(), numbers);
    save(bytes_of(pdf.get()), out);
  } catch (const std::exception& error) {
    std::cerr << error.what() << '\n';
    return 1;
  }
  return 0;
}
