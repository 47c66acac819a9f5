// The faces that every PDF carries, read from outside by the OpenType specification.
#include "export/lettering/base_face.hpp"

#include "export/lettering/winansi.hpp"

#include <gtest/gtest.h>
#include <hpdf.h>
#include <map>
#include <zlib.h>

namespace shankline::tests::base_face_test {
namespace {

class FontFile {
public:
  explicit FontFile(const BaseFace& face) : bytes_(static_cast<std::size_t>(face.length), '\0') {
    uLongf size = bytes_.size();
    whole_ = uncompress(reinterpret_cast<Bytef*>(bytes_.data()), &size, face.deflated.data(),
                        face.deflated.size()) == Z_OK &&
             size == bytes_.size();
    if (!whole_) return;
    for (std::size_t i = 0; i < number(4, 2); ++i) {
      const std::size_t row = 12 + 16 * i;
      tables_[bytes_.substr(row, 4)] = {number(row + 8, 4), number(row + 12, 4)};
    }
  }

  bool is_whole() const { return whole_; }
  bool has(const std::string& table) const { return tables_.count(table) == 1; }
  /// Reads a number of a table, high byte first.
  std::size_t number(const std::string& table, std::size_t at, int size) const {
    return number(tables_.at(table).first + at, size);
  }
  int signed_number(const std::string& table, std::size_t at) const {
    return static_cast<std::int16_t>(number(table, at, 2));
  }

  /// 0 where it has none; from the subtable for the basic plane, format 4, that PDF asks for.
  std::size_t glyph(char32_t character) const {
    const std::size_t map = number("cmap", 8, 4);
    const auto at = [&](std::size_t place) { return number("cmap", map + place, 2); };
    const std::size_t segments = at(6) / 2;
    for (std::size_t i = 0; i < segments; ++i) {
      const std::size_t last = at(14 + 2 * i), first = at(16 + 2 * (segments + i));
      if (character > last || character < first) continue;
      const std::size_t delta = at(16 + 2 * (2 * segments + i));
      const std::size_t place = 16 + 2 * (3 * segments + i);
      const std::size_t range = at(place);
      return (range == 0 ? character + delta
                         : at(place + range + 2 * (character - first)) + delta) &
             0xffff;
    }
    return 0;
  }

  /// Thousandths of the em.
  double advance(std::size_t glyph) const {
    const std::size_t last = number("hhea", 34, 2) - 1;
    return static_cast<double>(number("hmtx", 4 * std::min(glyph, last), 2)) * 1000 /
           static_cast<double>(number("head", 18, 2));
  }

  /// Thousandths of the em.
  double top(char32_t character) const { return edge(character, 8); }
  double bottom(char32_t character) const { return edge(character, 4); }

  /// By the number of what it names.
  std::map<std::size_t, std::string> names() const {
    std::map<std::size_t, std::string> names;
    const std::size_t words = number("name", 4, 2);
    for (std::size_t i = 0; i < number("name", 2, 2); ++i) {
      const std::size_t row = 6 + 12 * i;
      const std::size_t start = words + number("name", row + 10, 2);
      std::string& name = names[number("name", row + 6, 2)];
      for (std::size_t at = 1; at < number("name", row + 8, 2); at += 2) // all of it is ASCII
        name += static_cast<char>(number("name", start + at, 1));
    }
    return names;
  }

private:
  double edge(char32_t character, std::size_t at) const {
    const bool wide = number("head", 50, 2) == 1; // else halves of places
    const std::size_t index = glyph(character);
    const std::size_t start =
        wide ? number("loca", 4 * index, 4) : 2 * number("loca", 2 * index, 2);
    return signed_number("glyf", start + at) * 1000.0 / static_cast<double>(number("head", 18, 2));
  }

  std::size_t number(std::size_t at, int size) const {
    std::size_t value = 0;
    for (int i = 0; i < size; ++i)
      value = value << 8 | static_cast<unsigned char>(bytes_.at(at++));
    return value;
  }

  std::string bytes_;
  bool whole_ = false;
  std::map<std::string, std::pair<std::size_t, std::size_t>> tables_; ///< place and size
};

class BaseFaces : public testing::TestWithParam<Weight> {
protected:
  const BaseFace& face_ = base_face(GetParam());
  const FontFile file_{base_face(GetParam())};
};

INSTANTIATE_TEST_SUITE_P(Weights, BaseFaces, testing::Values(Weight::regular, Weight::bold));

// ISO 32000-1, 9.9: the tables of an embedded TrueType face; instructions are left out with theirs.
TEST_P(BaseFaces, HoldWhatAViewerNeeds) {
  ASSERT_TRUE(file_.is_whole());
  for (const char* table : {"glyf", "head", "hhea", "hmtx", "loca", "maxp", "cmap"})
    EXPECT_TRUE(file_.has(table)) << table;
  EXPECT_EQ(file_.number("cmap", 2, 2), 1u);
  EXPECT_EQ(file_.number("cmap", 4, 2), 3u) << "the platform of PDF";
  EXPECT_EQ(file_.number("cmap", 6, 2), 1u) << "the basic plane";
  EXPECT_EQ(file_.number("OS/2", 8, 2), 0u) << "embedding is free";
  EXPECT_LT(face_.deflated.size(), 12500u) << "every file carries them";
}

TEST_P(BaseFaces, ShowEveryCodeAsWideAsIsSaid) {
  ASSERT_TRUE(file_.is_whole());
  int codes = 0;
  for (char32_t character = 1; character < 0x3000; ++character) {
    const char code = winansi_byte(character);
    if (!code) continue;
    ++codes;
    const std::size_t glyph = file_.glyph(character);
    EXPECT_NE(glyph, 0u) << static_cast<std::uint32_t>(character);
    EXPECT_NEAR(file_.advance(glyph), face_.width({&code, 1}), 0.5)
        << static_cast<std::uint32_t>(character);
  }
  EXPECT_EQ(codes, 218 + 1) << "WinAnsiEncoding and the minus sign";
}

// Adobe's metrics of the core 14 fonts, as the PDF library holds them. It has none of the soft
// hyphen (the encoding's second hyphen) and of the minus, which is as wide as the dash here.
TEST_P(BaseFaces, AreAsWideAsTheBaseFontsOfPdf) {
  const HPDF_Doc document = HPDF_New(nullptr, nullptr);
  ASSERT_NE(document, nullptr);
  const HPDF_Font helvetica = HPDF_GetFont(
      document, GetParam() == Weight::bold ? "Helvetica-Bold" : "Helvetica", "WinAnsiEncoding");
  ASSERT_NE(helvetica, nullptr);
  for (char32_t character = 1; character < 0x3000; ++character) {
    const char code = winansi_byte(character);
    if (!code || character == U'\u00ad' || character == U'\u2212') continue;
    const auto byte = static_cast<HPDF_BYTE>(code);
    EXPECT_EQ(face_.width({&code, 1}), HPDF_Font_TextWidth(helvetica, &byte, 1).width)
        << static_cast<std::uint32_t>(character);
  }
  HPDF_Free(document);
  EXPECT_EQ(face_.width("\xad"), face_.width("-"));
  EXPECT_EQ(face_.width(std::string(1, minus_code)), face_.width("\x96"));
}

TEST_P(BaseFaces, AreSaidToLieInTheBoxThatTheyLieIn) {
  ASSERT_TRUE(file_.is_whole());
  for (std::size_t side = 0; side < 4; ++side)
    EXPECT_NEAR(file_.signed_number("head", 36 + 2 * side) * 1000.0 /
                    static_cast<double>(file_.number("head", 18, 2)),
                face_.box[side], 0.5)
        << side;
}

// ISO 32000-1, table 122: ascent without the marks on capitals. Readers take the height of a word
// from it, and a word's box has to stay on the page.
TEST_P(BaseFaces, AreSaidToReachAsFarAsTheirLetters) {
  const std::string entries = descriptor_entries(face_);
  for (const char* entry : {"/Ascent 725\n", "/Descent -208\n", "/CapHeight 688\n", "/Flags 32\n"})
    EXPECT_NE(entries.find(entry), std::string::npos) << entries;
  EXPECT_NEAR(file_.top(U'l'), 725, 0.6);
  EXPECT_NEAR(file_.bottom(U'p'), -208, 0.6);
  EXPECT_NEAR(file_.top(U'H'), 688, 0.6);
}

// SIL Open Font License 1.1, conditions 2 and 3.
TEST_P(BaseFaces, HaveANameOfTheirOwnAndCarryTheirLicence) {
  ASSERT_TRUE(file_.is_whole());
  const std::map<std::size_t, std::string> names = file_.names();
  for (const std::size_t shown : {1u, 3u, 4u, 6u}) {
    ASSERT_EQ(names.count(shown), 1u) << shown;
    EXPECT_TRUE(names.at(shown).starts_with("Shankline")) << names.at(shown);
    for (const char* reserved : {"Liberation", "Arimo", "Tinos", "Cousine"})
      EXPECT_EQ(names.at(shown).find(reserved), std::string::npos) << names.at(shown);
  }
  EXPECT_EQ(names.at(6), face_.name);
  EXPECT_NE(names.at(0).find("Copyright (c) 2012 Red Hat"), std::string::npos);
  EXPECT_NE(names.at(13).find("SIL Open Font License, Version 1.1"), std::string::npos);
}

} // namespace
} // namespace shankline::tests::base_face_test
