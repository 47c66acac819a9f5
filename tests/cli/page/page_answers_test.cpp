#include "cli/page/page_answers.hpp"

#include "cli/order_file/order_reader.hpp"
#include "cli/order_file/order_writer.hpp"
#include "cli/page/page_body_json.hpp"
#include "tests/geometry/random_orders.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>
#include <variant>
#include <vector>

namespace shankline::tests::page_answers_test {
namespace {

namespace fs = std::filesystem;
using json = nlohmann::ordered_json; // keys stay as they were written, as in a browser

Request usual() {
  Request request;
  request.paper = *read_paper("a4");
  return request;
}

json body_of_text(const std::string& text) {
  return json{{"text", text}};
}

std::string sample(const std::string& name) {
  return read_file(fs::path(places::samples) / name);
}

json asked(const std::string& path, const json& body) {
  const PageAnswer answer = PageAnswers(usual()).to(path, body.dump());
  EXPECT_EQ(answer.status, 200) << path << ": " << answer.body.substr(0, 300);
  return json::parse(answer.body, nullptr, false);
}

Order read_sound(const std::string& text) {
  const ReadOrder read = read_order(text, "order");
  EXPECT_TRUE(read.ok()) << text << (read.messages.empty() ? "" : read.messages.front().what);
  return read.order;
}

/// The program on a file that is called as the page calls its order.
class BesideTheProgram : public testing::Test {
protected:
  std::string printed(const std::string& text, std::vector<std::string> words) {
    write_file(scratch_.path() / "order", text);
    words.insert(words.begin(), places::program);
    Surroundings here;
    here.directory = scratch_.path();
    here.environment = {{"HOME", scratch_.path().string()},
                        {"XDG_CONFIG_HOME", std::nullopt},
                        {"XDG_DATA_HOME", std::nullopt}};
    return run(words, here).out;
  }
  std::string written(const std::string& name) { return read_file(scratch_.path() / name); }

  ScratchDirectory scratch_;
};

TEST_F(BesideTheProgram, LiveSolutionIsWhatCheckPrints) {
  for (const char* name : {"whole_order.yaml", "plain.yaml", "growing_foot.yaml", "inches.yaml"}) {
    const std::string text = sample(name);
    const PageAnswer answer = PageAnswers(usual()).to("/live", body_of_text(text).dump());
    const std::string document = printed(text, {"check", "order", "--json"});
    ASSERT_FALSE(document.empty()) << name;
    EXPECT_NE(answer.body.find("\"solution\":" + document), std::string::npos) << name;
  }
}

TEST_F(BesideTheProgram, SheetsAreTheBytesOfCut) {
  for (const char* name : {"whole_order.yaml", "cut_by_layer.yaml"}) {
    const json form = asked("/open", body_of_text(sample(name))).at("document");
    // Of the order file that the page hands out, which is not the one that was opened.
    const std::string text = asked("/text", {{"document", form}}).at("text");
    const json body{{"document", form}, {"paper", "letter"}, {"maker", true}, {"card", true}};
    const PageAnswer sheets = PageAnswers(usual()).to("/sheets", body.dump());
    EXPECT_EQ(sheets.type, "application/pdf");
    printed(text, {"cut", "order", "-o", "s.pdf", "--paper", "letter", "--maker", "--card"});
    EXPECT_TRUE(sheets.body == written("s.pdf")) << name;
  }
}

TEST_F(BesideTheProgram, NextLineAndComparisonAreThoseOfTheirVerbs) {
  const std::string text = sample("whole_order.yaml");
  const json body{{"text", text}, {"foot", "left"}, {"cut", "52"}, {"seen", "too-low"}};
  const json tried = asked("/try", body);
  const std::vector<std::string> next{"next",  "order", "--foot", "left",
                                      "--cut", "52",    "--seen", "too-low"};
  EXPECT_EQ(tried.at("words"), printed(text, next));
  std::vector<std::string> with_json = next;
  with_json.emplace_back("--json");
  EXPECT_EQ(tried.at("next"), json::parse(printed(text, with_json)));
  EXPECT_EQ(asked("/compare", body_of_text(text)).at("words"), printed(text, {"compare", "order"}));
}

TEST(PageAnswers, EveryRandomOrderComesBackFromItsForm) {
  Draw draw(20261201);
  int with_work = 0;
  int compared = 0;
  for (int i = 0; i < 120; ++i) {
    Order order = random_order(draw);
    order.dancer = "D-" + std::to_string(i);
    for (auto* foot : {&order.left, &order.right})
      if (*foot) {
        add_random_sides(draw, **foot, order.pose);
        if (i % 2 == 0) {
          add_random_work(draw, **foot);
          ++with_work;
        }
      }
    const std::string text = order_file_text(order);
    if (!read_order(text, "order").ok()) continue; // its readings cannot be
    std::vector<Message> messages;
    const std::string form = page_document(text, "order", messages);
    ASSERT_TRUE(messages.empty());
    const auto body = read_page_body("{\"document\":" + form + "}");
    ASSERT_TRUE(std::holds_alternative<PageBody>(body)) << std::get<std::string>(body);
    const std::string again = *std::get<PageBody>(body).order;
    ASSERT_EQ(order_file_text(read_sound(again)), order_file_text(read_sound(text)))
        << text << "\nbecame\n"
        << again;
    ++compared;
  }
  EXPECT_GT(compared, 80);
  EXPECT_GT(with_work, 40);
}

TEST(PageAnswers, EverySampleComesBackFromItsForm) {
  int samples = 0;
  for (const fs::directory_entry& file : fs::directory_iterator(places::samples)) {
    if (file.path().extension() != ".yaml") continue;
    const std::string text = read_file(file.path());
    const json form = asked("/open", body_of_text(text)).at("document");
    const std::string again = asked("/text", {{"document", form}}).at("text");
    EXPECT_EQ(order_file_text(read_sound(again)), order_file_text(read_sound(text)))
        << file.path() << "\n"
        << again;
    ++samples;
  }
  EXPECT_GT(samples, 8);
}

TEST(PageAnswers, WhatWasTypedStandsInTheOrderFileAsItWasTyped) {
  const json form{{"dancer", "M-07"},
                  {"pair", "# \"odd\": pair"},
                  {"date", "2026-03-14"},
                  {"feet",
                   {{"left",
                     {{"length", {"9 3/8 in", " 238 ", ""}},
                      {"arch_break", {{"medial", "97"}, {"lateral", ""}}},
                      {"fold", ""}}}}},
                  {"shoe",
                   {{"board", {{"widths", json::array({{"22", "45"}, {"96", "33"}})}}},
                    {"stock", {{"box", "soft, tapered"}}}}},
                  {"alterations", {{"filler", true}, {"liner", "full"}}}};
  const std::string text = asked("/text", {{"document", form}}).at("text");
  EXPECT_EQ(text, "dancer: M-07\n"
                  "pair: \"# \\\"odd\\\": pair\"\n"
                  "date: 2026-03-14\n"
                  "feet:\n"
                  "  left:\n"
                  "    length: [9 3/8 in, 238]\n"
                  "    arch_break: {medial: 97}\n"
                  "shoe:\n"
                  "  board: {widths: [[22, 45], [96, 33]]}\n"
                  "  stock: {box: \"soft, tapered\"}\n"
                  "alterations:\n"
                  "  filler: true\n"
                  "  liner: full\n");
}

TEST(PageAnswers, MistakeIsFoundUnderItsKey) {
  json form = asked("/open", body_of_text(sample("plain.yaml"))).at("document");
  form["feet"]["left"]["heel_front"] = "6l";
  const json live = asked("/live", {{"document", form}});
  EXPECT_FALSE(live.at("ok").get<bool>());
  EXPECT_FALSE(live.contains("pictures"));
  const json& findings = live.at("solution").at("findings");
  ASSERT_EQ(findings.size(), 1u) << findings.dump(1);
  EXPECT_EQ(findings.at(0).at("severity"), "error");
  EXPECT_EQ(findings.at(0).at("key"), "feet.left.heel_front");
  const PageAnswer sheets = PageAnswers(usual()).to("/sheets", json{{"document", form}}.dump());
  EXPECT_EQ(sheets.status, 422);
  EXPECT_NE(sheets.body.find("feet.left.heel_front"), std::string::npos);
}

TEST(PageAnswers, PictureHasTheLinesAndSaysThatItIsNotToScale) {
  const json live = asked("/live", body_of_text(sample("whole_order.yaml")));
  for (const char* side : {"left", "right"}) {
    const std::string svg = live.at("pictures").at(side);
    for (const char* part : {"k-first_cut", "k-final_cut", "k-stop\"", "k-stop_band", "k-band",
                             "k-witness", "k-edge", "not to scale", "1 first 52.5"})
      EXPECT_NE(svg.find(part), std::string::npos) << side << " " << part;
    EXPECT_EQ(svg.find("style"), std::string::npos) << "the page forbids styles in the markup";
    EXPECT_NE(live.at("known").at(side).get<std::string>().find("\u00b1"), std::string::npos);
  }
}

TEST(PageAnswers, EstimatesAreNamedForBoxesThatAreEmpty) {
  json form = asked("/open", body_of_text(sample("plain.yaml"))).at("document");
  EXPECT_TRUE(asked("/live", {{"document", form}}).at("estimates").empty());
  form["feet"]["left"].erase("heel_front");
  const json estimates = asked("/live", {{"document", form}}).at("estimates");
  ASSERT_TRUE(estimates.contains("feet.left.heel_front")) << estimates.dump();
  EXPECT_NEAR(estimates.at("feet.left.heel_front").get<double>(), 61, 3);
  EXPECT_EQ(estimates.size(), 1u);
}

TEST(PageAnswers, SaysWhetherCommentsWouldBeLost) {
  EXPECT_TRUE(has_comments("dancer: M-07 # left\n"));
  EXPECT_TRUE(has_comments("# head\ndancer: M-07\n"));
  EXPECT_FALSE(has_comments("dancer: M#07\n"));
  EXPECT_FALSE(has_comments("pair: \"a # b\"\nnote: 'c # d'\n"));
  EXPECT_TRUE(has_comments("pair: \"a\" # b\n"));
}

TEST(PageAnswers, RefusesWhatIsNoRequestOfThePage) {
  const PageAnswers answers(usual());
  const auto status = [&](const char* path, const std::string& body) {
    return answers.to(path, body).status;
  };
  EXPECT_EQ(status("/nothing", "{}"), 404);
  EXPECT_EQ(status("/live", ""), 400);
  EXPECT_EQ(status("/live", "[]"), 400);
  EXPECT_EQ(status("/live", "{}"), 400);
  EXPECT_EQ(status("/live", R"({"text": 5})"), 400);
  EXPECT_EQ(status("/live", R"({"text": "", "document": {}})"), 400);
  EXPECT_EQ(status("/live", R"({"document": []})"), 400);
  EXPECT_EQ(status("/sheets", R"({"text": "", "paper": "b9"})"), 400);
  EXPECT_EQ(status("/parts", R"({"text": "", "format": "exe"})"), 400);
  EXPECT_EQ(status("/try", R"({"text": "", "seen": "green"})"), 400);
  EXPECT_EQ(status("/try", R"({"text": "", "seen": "good", "cut": "-3"})"), 400);
  EXPECT_EQ(status("/try", R"({"text": "", "seen": "good", "cut": "401"})"), 400);
  EXPECT_EQ(status("/archive", R"({"do": "forget", "dancer": "M-07"})"), 400);
  EXPECT_EQ(status("/archive", R"({"do": "list", "id": -1})"), 400);
  std::string deep;
  for (int i = 0; i < 20000; ++i)
    deep += "[";
  EXPECT_EQ(status("/live", R"({"document": {"feet": )" + deep), 400);
  for (int i = 0; i < 20000; ++i)
    deep += "]";
  EXPECT_EQ(status("/live", R"({"document": {"feet": )" + deep + "}}"), 400);
}

} // namespace
} // namespace shankline::tests::page_answers_test
