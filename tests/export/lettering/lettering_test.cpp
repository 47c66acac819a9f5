#include "export/lettering/lettering.hpp"

#include "export/formats/pdf_writer.hpp"
#include "export/lettering/code_point.hpp"
#include "export/lettering/composition.hpp"
#include "export/lettering/face_file.hpp"
#include "export/lettering/face_trial.hpp"
#include "export/lettering/plain_script.hpp"
#include "export/lettering/typeface.hpp"
#include "tests/support/process.hpp"
#include "tests/support/readback.hpp"
#include "tests/support/scratch_directory.hpp"

#include <algorithm>
#include <filesystem>
#include <gtest/gtest.h>

namespace shankline::tests::lettering_test {
namespace {

// These faces come from the packages that .cmake/setup.sh installs for the tests.
const std::string sans = "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf";
const std::string sans_bold = "/usr/share/fonts/truetype/dejavu/DejaVuSans-Bold.ttf";
const std::string gothic = "/usr/share/fonts/truetype/vlgothic/VL-Gothic-Regular.ttf";

/// Latin, Greek and Cyrillic in one face, kana and ideographs in the other.
std::vector<Face> two_faces(const std::u32string& wanted) {
  Face west{{sans}, {sans_bold}, {}};
  Face east{{gothic}, {gothic}, {}};
  for (const char32_t c : wanted) {
    if (c < 0x2000) west.shows += c;
    if ((c >= 0x3000 && c < 0xa000) || c < 0x7f) east.shows += c;
  }
  if (east.shows.size() > west.shows.size()) return {east, west};
  return {west, east};
}

std::string bytes_of(const std::vector<LetterRun>& runs) {
  std::string bytes;
  for (const LetterRun& run : runs)
    bytes += (run.face ? std::to_string(*run.face) : "-") + "[" + run.bytes + "]";
  return bytes;
}

TEST(CodePoints, ThereAndBack) {
  const std::string words = "aé\u0141山\U0001f600";
  EXPECT_EQ(to_utf8(code_points(words)), words);
  EXPECT_EQ(code_points(words), U"aé\u0141山\U0001f600");
  EXPECT_EQ(code_points("a\xff\xc3"), U"a\ufffd\ufffd");
  EXPECT_EQ(code_points("\xe0\x80\xbc"), U"\ufffd\ufffd\ufffd") << "a '<' written too long";
}

TEST(CodePoints, KnowWhatIsWellFormed) {
  // The Unicode Standard, table 3-7: the first and last of each row, and what lies just outside.
  for (const std::string& taken :
       {std::string("\x7f"), std::string("\xc2\x80"), std::string("\xdf\xbf"),
        std::string("\xe0\xa0\x80"), std::string("\xed\x9f\xbf"), std::string("\xee\x80\x80"),
        std::string("\xf0\x90\x80\x80"), std::string("\xf4\x8f\xbf\xbf")})
    EXPECT_EQ(character_length(taken + "x"), taken.size()) << taken;
  for (const char* refused :
       {"\x80", "\xc1\xbf", "\xe0\x9f\xbf", "\xed\xa0\x80", "\xf0\x8f\xbf\xbf", "\xf4\x90\x80\x80",
        "\xc2", "\xe2\x82", "\xf5\x80\x80\x80"})
    EXPECT_EQ(character_length(refused), 0u) << refused;
}

TEST(CodePoints, TakeTheColumnsOfATerminal) {
  // Unicode, UAX 11: ideographs and full-width letters are wide; marks take no column (UAX 44, Mn).
  EXPECT_EQ(columns_of("M-07"), 4u);
  EXPECT_EQ(columns_of("\u00e9\u0141"), 2u);
  EXPECT_EQ(columns_of("e\u0301"), 1u);
  EXPECT_EQ(columns_of("\u5c71\u7530"), 4u);
  EXPECT_EQ(columns_of("\uff21"), 2u);
  EXPECT_EQ(columns_of(""), 0u);
}

TEST(Composition, IsNormalizationFormC) {
  // Rows of Unicode's NormalizationTest.txt, parts 0 and 1: source and NFC.
  EXPECT_EQ(composed(U"\u1e0a\u0323"), U"\u1e0c\u0307");
  EXPECT_EQ(composed(U"\u0044\u0307\u0323"), U"\u1e0c\u0307");
  EXPECT_EQ(composed(U"\u212b"), U"\u00c5");
  EXPECT_EQ(composed(U"\u2126"), U"\u03a9");
  EXPECT_EQ(composed(U"\u0958"), U"\u0915\u093c") << "is left out of composition";
}

TEST(Composition, LeavesWhatStaysAsItIsToItself) {
  int known = 0;
  for (char32_t c = 1; c < 0x3000; ++c) {
    if (!stays_as_it_is(c)) continue;
    ++known;
    EXPECT_EQ(normal_form(to_utf8(c)), to_utf8(c)) << static_cast<unsigned>(c);
    EXPECT_EQ(normal_form("A" + to_utf8(c)), "A" + to_utf8(c)) << static_cast<unsigned>(c);
  }
  EXPECT_GT(known, 700);
  EXPECT_FALSE(stays_as_it_is(U'\u0301'));
}

TEST(Composition, PutsLettersAndMarksTogether) {
  EXPECT_EQ(composed(U"Z\u0307o\u0301lc\u0301"), U"Żólć");
  EXPECT_EQ(composed(U"\u0391\u0301\u03b9\u0308\u0301"), U"Ά\u0390");
  EXPECT_EQ(composed(U"\u0438\u0306"), U"й");
  EXPECT_EQ(composed(U"\u304b\u3099"), U"が");
  EXPECT_EQ(composed(U"a\u0323\u0302"), U"ậ");
  EXPECT_EQ(composed(U"\u1112\u1161\u11ab\u1100\u1173\u11af"), U"한글");
  EXPECT_EQ(composed(U"x\u0301\u0301a"), U"x\u0301\u0301a") << "there is no such letter";
  EXPECT_EQ(composed(U"\u0301"), U"\u0301");
}

TEST(PlainScript, HoldsWhatStandsByItself) {
  for (const char32_t c : U"AéŁΩЖ山かカ한·€…")
    EXPECT_TRUE(c == 0 || is_plain_script(c)) << static_cast<unsigned>(c);
  for (const char32_t c :
       {U'\u05d0', U'\u0645', U'\u0930', U'\u0e01', U'\u0301', U'\u200d', U'\u202e', U'\ufe0f',
        U'\U0001f600', U'\ue000', U'\ufffd', U'\u00ad', U'\u1100', U'\u3099', U'\U00020bb7'})
    EXPECT_FALSE(is_plain_script(c)) << static_cast<unsigned>(c);
}

TEST(Lettering, AsksForNoFaceWhereTheBaseFontsSuffice) {
  bool asked = false;
  const ChosenLettering chosen =
      choose_lettering({"M-07", "Zoe\u0308 \u2013 \u20ac", ""}, [&](const std::u32string&) {
        asked = true;
        return std::vector<Face>{};
      });
  EXPECT_FALSE(asked);
  EXPECT_TRUE(chosen.lettering.faces.empty());
  EXPECT_TRUE(chosen.missing_characters.empty());
  EXPECT_EQ(bytes_of(letter_runs("Zoe\u0308", {})), "-[Zo\xeb]");
}

TEST(Lettering, OneWordIsOneFace) {
  const auto chosen = choose_lettering({"Łucja Nowak", "山田 A"}, two_faces);
  ASSERT_EQ(chosen.lettering.faces.size(), 2u);
  EXPECT_TRUE(chosen.missing_characters.empty());
  EXPECT_EQ(bytes_of(letter_runs("Łucja, Nowak", chosen.lettering)), "0[Łucja,]-[ Nowak]");
  EXPECT_EQ(bytes_of(letter_runs("x 山田", chosen.lettering)), "-[x ]1[山田]");
  EXPECT_EQ(bytes_of(letter_runs("Ł山", chosen.lettering)), "0[Ł]1[山]");
}

TEST(Lettering, SaysWhatNothingShows) {
  const auto chosen = choose_lettering({"\u0645\u0645 Ł\u1200 \U0001f600x\u0302"}, two_faces);
  EXPECT_EQ(chosen.missing_characters.without_shaping,
            (std::vector<std::string>{"\u0645", "\U0001f600", "\u0302"}));
  const auto hangul = choose_lettering({"한"}, two_faces);
  EXPECT_EQ(hangul.missing_characters.without_face, std::vector<std::string>{"한"});
  EXPECT_TRUE(hangul.lettering.faces.empty()) << "a face that shows nothing that is wanted";
  EXPECT_EQ(bytes_of(letter_runs("한", hangul.lettering)), "-[?]");
  EXPECT_EQ(choose_lettering({"Ł"}, {}).missing_characters.without_face,
            std::vector<std::string>{"Ł"});
}

TEST(Lettering, TakesOnlyFacesThatCanBeEmbedded) {
  const tests::ScratchDirectory scratch;
  const auto with_rights = [&](const char* name, unsigned char high, unsigned char low) {
    std::string bytes = tests::read_file(sans);
    const std::size_t row = bytes.find("OS/2");
    const auto byte = [&](std::size_t i) {
      return static_cast<std::size_t>(static_cast<unsigned char>(bytes[row + 8 + i]));
    };
    const std::size_t table = byte(0) << 24 | byte(1) << 16 | byte(2) << 8 | byte(3);
    bytes[table + 8] = static_cast<char>(high);
    bytes[table + 9] = static_cast<char>(low);
    tests::write_file(scratch.path() / name, bytes);
    return FaceFile{(scratch.path() / name).string()};
  };
  tests::write_file(scratch.path() / "no.ttf", "no face");
  EXPECT_TRUE(FaceTrial().takes({sans}));
  EXPECT_TRUE(FaceTrial().takes({gothic}));
  EXPECT_TRUE(FaceTrial().takes(with_rights("editable.ttf", 0, 8)));
  EXPECT_FALSE(FaceTrial().takes(with_rights("restricted.ttf", 0, 2)));
  EXPECT_FALSE(FaceTrial().takes(with_rights("whole.ttf", 1, 0)));
  EXPECT_FALSE(FaceTrial().takes(with_rights("bitmap.ttf", 2, 0)));
  EXPECT_FALSE(FaceTrial().takes({(scratch.path() / "no.ttf").string()}));
  EXPECT_FALSE(FaceTrial().takes({(scratch.path() / "absent.ttf").string()}));

  FaceTrial one;
  EXPECT_FALSE(one.takes({(scratch.path() / "no.ttf").string()}));
  EXPECT_TRUE(one.takes({sans})) << "after one that was refused";
  EXPECT_TRUE(one.takes({sans})) << "again";
  EXPECT_FALSE(one.takes(with_rights("same_name.ttf", 0, 0))) << "two of one name";

  const auto first = with_rights("restricted.ttf", 0, 2);
  const auto chosen = choose_lettering({"Ł"}, [&](const std::u32string& wanted) {
    return std::vector<Face>{{first, first, wanted}, {{sans}, {sans_bold}, wanted}};
  });
  ASSERT_EQ(chosen.lettering.faces.size(), 1u);
  EXPECT_EQ(chosen.lettering.faces[0].regular.path, sans);
}

TEST(Lettering, ReadersFindTheWordsAsWideAsTheyWereMeasured) {
  const std::vector<std::string> words{"Łukasz", "Żółć-Ąę",  "Αλέξανδρος",
                                       "Привет", "山田太郎", "ひらがな"};
  const Typeface typeface(choose_lettering(words, two_faces).lettering);
  Drawing drawing;
  drawing.lettering = typeface.lettering();
  drawing.title = "Łukasz 山";
  Page page;
  page.paper = papers().front();
  page.title = "Привет";
  double y = 20;
  for (const std::string& word : words)
    for (const Weight weight : {Weight::regular, Weight::bold})
      page.marks.emplace_back(Text{{20, y += 12}, word, 6, weight});
  drawing.pages.push_back(page);
  const tests::ScratchDirectory scratch;
  const auto pdf = scratch.path() / "words.pdf";
  tests::write_file(pdf, pdf_bytes(drawing));
  EXPECT_EQ(pdf_bytes(drawing), pdf_bytes(drawing));

  const auto found = tests::page_words(pdf, 1);
  ASSERT_EQ(found.size(), 2 * words.size());
  for (const std::string& word : words)
    for (const Weight weight : {Weight::regular, Weight::bold}) {
      const double width = typeface.width(word, 6, weight);
      EXPECT_TRUE(std::any_of(found.begin(), found.end(),
                              [&](const tests::Word& w) {
                                return w.text == word &&
                                       std::abs(w.box.high.x - w.box.low.x - width) < 0.01 * width;
                              }))
          << word << ' ' << width;
    }
  const tests::Finished fonts = tests::run({"pdffonts", pdf.string()});
  EXPECT_EQ(fonts.err, "") << "nothing to object to";
  for (const char* name : {"DejaVuSans,Book", "DejaVuSans-Bold", "VL-Gothic-Regular"})
    EXPECT_NE(fonts.out.find(name), std::string::npos) << fonts.out;
  EXPECT_EQ(tests::run({"pdftotext", pdf.string(), "-"}).err, "");
  EXPECT_EQ(tests::read_document(pdf).check, "");
  EXPECT_NE(tests::run({"pdfinfo", pdf.string()}).out.find("Łukasz 山"), std::string::npos);
  const tests::Finished other = tests::run({"mutool", "draw", "-F", "text", pdf.string()});
  for (const std::string& word : words)
    EXPECT_NE(other.out.find(word), std::string::npos) << word << '\n' << other.out << other.err;
}

} // namespace
} // namespace shankline::tests::lettering_test
