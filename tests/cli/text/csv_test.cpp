#include "cli/text/csv.hpp"

#include <gtest/gtest.h>
#include <string>
#include <variant>
#include <vector>

namespace shankline::tests::csv_test {
namespace {

std::vector<CsvRow> rows_of(const std::string& text) {
  auto read = read_csv(text);
  if (const CsvFault* fault = std::get_if<CsvFault>(&read)) {
    ADD_FAILURE() << fault->what << " in row " << fault->row;
    return {};
  }
  return std::get<std::vector<CsvRow>>(read);
}

CsvFault fault_of(const std::string& text) {
  auto read = read_csv(text);
  if (const CsvFault* fault = std::get_if<CsvFault>(&read)) return *fault;
  ADD_FAILURE() << "taken: " << text;
  return {};
}

TEST(Csv, WritesQuotationMarksWhereTheyAreNeeded) {
  EXPECT_EQ(csv_row({"M-07", "", "a,b", "say \"no\"", "two\nlines", CsvCell::figure("-1.5")}),
            "M-07,,\"a,b\",\"say \"\"no\"\"\",\"two\nlines\",-1.5\r\n");
  EXPECT_EQ(csv_row({" spaces "}), "\" spaces \"\r\n");
}

/// A cell that a spreadsheet would work out is a text.
TEST(Csv, WritesNoFormula) {
  for (const char* formula : {"=1+1", "+1", "-1+cmd", "@SUM(A1)", "\t=1", "\r=1", "'=1"}) {
    const std::string row = csv_row({formula, "end"});
    const std::size_t first = row.front() == '"' ? 1 : 0;
    EXPECT_EQ(row[first], '\'') << row;
  }
  EXPECT_EQ(csv_row({"'tis", "a=b", "5-3"}), "'tis,a=b,5-3\r\n");
}

TEST(Csv, ReadsBackWhatItWrites) {
  const std::vector<std::string> texts{"M-07",      "",         "a,b",        "\"",         "\"\"",
                                       "line\nend", "=SUM(A1)", "'=1",        "''=1",       "'tis",
                                       "-5",        " outer ",  "Zo\u00eb;7", "+1 within 2"};
  std::vector<CsvCell> cells(texts.begin(), texts.end());
  const auto rows = rows_of(csv_row(cells) + csv_row(cells));
  ASSERT_EQ(rows.size(), 2u);
  ASSERT_EQ(rows[1].fields.size(), texts.size());
  for (std::size_t i = 0; i < texts.size(); ++i)
    EXPECT_EQ(rows[1].fields[i].text, texts[i]);
}

// At the beginning of a file it would be taken for the file's own mark, and be lost.
TEST(Csv, KeepsAByteOrderMarkThatBelongsToACell) {
  for (const std::string text : {"\xef\xbb\xbf", "\xef\xbb\xbf"
                                                 "M-07"}) {
    const auto rows = rows_of(csv_row({text}));
    ASSERT_EQ(rows.size(), 1u);
    EXPECT_EQ(rows[0].fields[0].text, text);
  }
}

TEST(Csv, ReadsWhatSpreadsheetsWrite) {
  for (const char* text :
       {"a,b\r\n1,2\r\n", "a,b\n1,2",
        "\xef\xbb\xbf"
        "a,b\r\n1,2\r\n",
        "a;b\n1;2\n", "\"a\",\"b\"\n\"1\",\"2\"\n", "a , b\n 1,2 \n", "a,b\n,\n1,2\n\n"}) {
    const auto rows = rows_of(text);
    ASSERT_EQ(rows.size(), 2u) << text;
    ASSERT_EQ(rows[1].fields.size(), 2u) << text;
    EXPECT_EQ(rows[0].fields[0].text, "a") << text;
    EXPECT_EQ(rows[1].fields[1].text, "2") << text;
  }
  // Rows are counted as a spreadsheet does, places as an editor does.
  const auto rows = rows_of("a,b\n\"two\nlines\",1\n,\nc\u00e9,d\n");
  ASSERT_EQ(rows.size(), 3u);
  EXPECT_EQ(rows[2].number, 4);
  EXPECT_EQ(rows[2].fields[1].line, 5);
  EXPECT_EQ(rows[2].fields[1].column, 4);
  // An empty cell at the end of a line, and at the end of the text.
  EXPECT_EQ(rows_of("a,b\n1,\n").at(1).fields.size(), 2u);
  EXPECT_EQ(rows_of("a,b\n1,").at(1).fields.size(), 2u);
  EXPECT_TRUE(rows_of("").empty());
}

struct Refused {
  const char* text;
  const char* what;
  int line;
  int column;
  int row;
};

TEST(Csv, RefusesWhatCanBeReadInTwoWays) {
  const Refused all[]{
      {"a,b\n1,x\"y\n", "inside this cell", 2, 4, 2},
      {"a,b\n\"1\"2,3\n", "behind the closing", 2, 4, 2},
      {"a,b\n1,\"2\n3,4\n", "never closed", 2, 3, 2},
      {"a,b\n1,2,3\n", "has 3 cells", 2, 1, 2},
      {"a,b\n1\n", "has 1 cells", 2, 1, 2},
      {"a,b\n1,\xff\n", "not in UTF-8", 2, 3, 2},
      {"a,b\n1,\x01\n", "control character", 2, 3, 2},
      {"a,b\r1,2\r", "carriage return", 1, 4, 1},
  };
  for (const Refused& one : all) {
    const CsvFault fault = fault_of(one.text);
    EXPECT_NE(fault.what.find(one.what), std::string::npos) << fault.what << "\n" << one.text;
    EXPECT_FALSE(fault.advice.empty());
    EXPECT_EQ(fault.line, one.line) << one.text;
    EXPECT_EQ(fault.column, one.column) << one.text;
    EXPECT_EQ(fault.row, one.row) << one.text;
  }
}

TEST(Csv, NamesColumnsAsSpreadsheetsDo) {
  EXPECT_EQ(csv_column_name(0), "A");
  EXPECT_EQ(csv_column_name(25), "Z");
  EXPECT_EQ(csv_column_name(26), "AA");
  EXPECT_EQ(csv_column_name(51), "AZ");
  EXPECT_EQ(csv_column_name(52), "BA");
  EXPECT_EQ(csv_column_name(702), "AAA");
}

} // namespace
} // namespace shankline::tests::csv_test
