#include "cli/yaml/order_document.hpp"

#include "cli/text/characters.hpp"
#include "cli/yaml/open_marks.hpp"
#include "cli/yaml/order_characters.hpp"

#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <sstream>
#include <utility>

namespace shankline {
namespace {

constexpr std::size_t deepest_nesting = 16;
constexpr int most_nodes = 5000;

bool is_key_character(char c) {
  return is_letter(c) || is_digit(c) || c == '_' || c == '-';
}

constexpr std::string_view reference_what =
    "'&' and '*' refer to other places of a file, which orders do not do";
constexpr std::string_view reference_advice =
    "write the value out; for a text that begins with the sign, use quotation marks";

ReadingEnd open_quote(Place place) {
  return {place, "a quotation mark is opened here and not closed on the same line",
          "close it on this line; a text of several lines goes in without quotation marks"};
}

// Builds the tree from the events and throws a ReadingEnd at whatever an order does not need.
class TreeBuilder : public YAML::EventHandler {
public:
  TreeBuilder(std::string_view text, const CharacterPlaces& places, const std::string& file)
      : text_(text), places_(places), file_(file) {}

  std::optional<Node> root;
  std::vector<Message> messages;

  /// The first byte that no event has passed yet.
  std::size_t reached() const { return reached_; }

  void OnDocumentStart(const YAML::Mark& mark) override {
    if (documents_++ > 0)
      end(mark, "a second order begins here, or something that belongs to none",
          "keep one order in one file; delete the line --- and what does not belong");
  }
  void OnDocumentEnd() override {}

  void OnAnchor(const YAML::Mark& mark, const std::string&) override { refuse_reference(mark); }
  void OnAlias(const YAML::Mark& mark, YAML::anchor_t) override { refuse_reference(mark); }

  void OnNull(const YAML::Mark& mark, YAML::anchor_t) override {
    // If the value is empty, the mark is that of the text that follows.
    Node node = new_node(NodeKind::nothing, mark);
    if (!open_.empty() && open_.back().key) node.place = open_.back().key_place;
    attach(std::move(node));
  }

  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t,
                const std::string& value) override {
    refuse_tag(mark, tag);
    Node node = new_node(NodeKind::scalar, mark);
    node.text = value;
    node.quoted = tag == "!";
    const std::size_t start = reached_;
    if (node.quoted && leaves_quote_open(text_, start)) throw open_quote(node.place);
    reached_ = start + 1;
    attach(std::move(node));
  }

  void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t,
                       YAML::EmitterStyle::value) override {
    begin(NodeKind::list, mark, tag);
  }
  void OnSequenceEnd() override { close(); }
  void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t,
                  YAML::EmitterStyle::value) override {
    begin(NodeKind::map, mark, tag);
  }
  void OnMapEnd() override { close(); }

private:
  struct Open {
    Node node;
    std::optional<std::string> key; ///< read, its value still to come
    Place key_place;
    bool comma_reported = false; ///< of a list
  };

  [[noreturn]] void end(const YAML::Mark& mark, std::string what, std::string advice) const {
    throw ReadingEnd{place_of(mark), std::move(what), std::move(advice)};
  }

  Place place_of(const YAML::Mark& mark) const {
    return places_.at(places_.offset(mark.line, mark.column));
  }

  [[noreturn]] void refuse_reference(const YAML::Mark& mark) const {
    end(mark, std::string(reference_what), std::string(reference_advice));
  }

  void refuse_tag(const YAML::Mark& mark, const std::string& tag) const {
    if (!tag.empty() && tag != "!" && tag != "?")
      end(mark, "'!' gives a value a type, which orders do not do",
          "delete the word with '!'; for a text that begins with it, use quotation marks");
  }

  Node new_node(NodeKind kind, const YAML::Mark& mark) {
    if (++nodes_ > most_nodes)
      end(mark, "there are more than " + std::to_string(most_nodes) + " values in this file",
          "check that this is an order");
    reached_ = std::max(reached_, places_.offset(mark.line, mark.column));
    Node node;
    node.kind = kind;
    node.place = place_of(mark);
    return node;
  }

  void begin(NodeKind kind, const YAML::Mark& mark, const std::string& tag) {
    refuse_tag(mark, tag);
    if (open_.size() >= deepest_nesting)
      end(mark, "values are nested more than " + std::to_string(deepest_nesting) + " deep",
          "an order needs no more than 4 levels");
    open_.push_back({new_node(kind, mark), std::nullopt, {}});
  }

  void close() {
    Node node = std::move(open_.back().node);
    open_.pop_back();
    attach(std::move(node));
  }

  void attach(Node node) {
    if (open_.empty())
      root = std::move(node);
    else if (open_.back().node.kind == NodeKind::list)
      take_item(std::move(node));
    else if (!open_.back().key)
      take_key(std::move(node));
    else
      take_value(std::move(node));
  }

  void take_item(Node node) {
    Open& list = open_.back();
    std::vector<Node>& items = list.node.items;
    if (!list.comma_reported && !items.empty() && may_be_one_number(items.back(), node)) {
      report_comma(items.back(), node);
      list.comma_reported = true;
    }
    items.push_back(std::move(node));
  }

  /// True for 6,5 without a space, which may mean 6.5. Programs write JSON so.
  bool may_be_one_number(const Node& whole, const Node& decimal) const {
    const auto digits = [](const Node& node) {
      return node.kind == NodeKind::scalar && !node.quoted && !node.text.empty() &&
             std::all_of(node.text.begin(), node.text.end(), is_digit);
    };
    return !is_json() && digits(whole) && digits(decimal) && decimal.text.size() == 1 &&
           decimal.place.line == whole.place.line &&
           decimal.place.column == whole.place.column + static_cast<int>(whole.text.size()) + 1;
  }

  bool is_json() const {
    const std::size_t first = text_.find_first_not_of(" \n");
    return first != std::string_view::npos && text_[first] == '{';
  }

  void report_comma(const Node& whole, const Node& decimal) {
    Message message;
    message.file = file_;
    message.line = whole.place.line;
    message.column = whole.place.column;
    message.key = key_path();
    message.what = whole.text + "," + decimal.text + " may be one number or two";
    message.allowed = "a point in a number, a space between two";
    message.advice =
        "write " + whole.text + "." + decimal.text + " or " + whole.text + ", " + decimal.text;
    messages.push_back(std::move(message));
  }

  void take_key(Node node) {
    if (node.kind != NodeKind::scalar)
      throw ReadingEnd{node.place, "a key is missing before ':'", "write a plain word as the key"};
    Open& map = open_.back();
    map.key = std::move(node.text);
    map.key_place = node.place;
    const auto& members = map.node.members;
    const auto first = std::find_if(members.begin(), members.end(),
                                    [&](const Member& member) { return member.key == *map.key; });
    if (first != members.end()) report_repeated(map.key_place, first->place);
  }

  void take_value(Node node) {
    Open& map = open_.back();
    map.node.members.push_back(
        {*std::exchange(map.key, std::nullopt), map.key_place, std::move(node)});
  }

  void report_repeated(Place again, Place first) {
    Message message;
    message.file = file_;
    message.line = again.line;
    message.column = again.column;
    message.key = key_path();
    message.what = "is written twice: in line " + std::to_string(first.line) + " and in line " +
                   std::to_string(again.line);
    message.advice = "keep the one that is right and delete the other";
    messages.push_back(std::move(message));
  }

  std::string key_path() const {
    std::string path;
    for (const Open& open : open_)
      if (open.key) path += (path.empty() ? "" : ".") + *open.key;
    return path;
  }

  std::string_view text_;
  const CharacterPlaces& places_;
  const std::string& file_;
  std::vector<Open> open_;
  std::size_t reached_ = 0;
  int documents_ = 0;
  int nodes_ = 0;
};

struct SyntaxWords {
  std::string_view library; ///< how the library's message begins
  std::string_view what;
  std::string_view advice;
};

constexpr std::string_view quote_advice =
    "put a text that holds ':', '#' or a bracket in quotation marks";

const SyntaxWords syntax_words[] = {
    {YAML::ErrorMsg::END_OF_MAP_FLOW, "a '{' is not closed, or a comma is missing",
     "write {key: value, key: value} and close the bracket"},
    {YAML::ErrorMsg::END_OF_SEQ_FLOW, "a '[' is not closed, or a comma is missing",
     "write [238, 238.5] and close the bracket"},
    {YAML::ErrorMsg::FLOW_END, "a bracket is closed here that was never opened",
     "delete it, or open it before the first value"},
    {YAML::ErrorMsg::END_OF_MAP, "this line does not fit under the lines before it",
     "write 'key: value', and begin the keys of one level in the same column"},
    {YAML::ErrorMsg::END_OF_SEQ, "this line does not fit into the list before it",
     "begin every '-' of one list in the same column"},
    {YAML::ErrorMsg::MAP_VALUE, "there is a ':' where no key can stand",
     "check this line's indentation; put a text that holds ':' in quotation marks"},
    {YAML::ErrorMsg::MAP_KEY, "there is a key where none can stand",
     "begin the keys of one level in the same column"},
    {YAML::ErrorMsg::BLOCK_ENTRY, "there is a '-' where no list can stand",
     "begin the list on a line of its own, or write it in brackets: [238, 238.5]"},
    {YAML::ErrorMsg::TAB_IN_INDENTATION, "this line is indented with a tab",
     "indent with spaces, two for each level"},
    {YAML::ErrorMsg::INVALID_ESCAPE, "there is a '\\' inside quotation marks",
     "use single quotation marks for a text with '\\'"},
    {YAML::ErrorMsg::UNKNOWN_TOKEN, "a text cannot begin with this sign",
     "put the text in quotation marks"},
    {YAML::ErrorMsg::UNKNOWN_ANCHOR, reference_what, reference_advice},
    {YAML::ErrorMsg::ALIAS_NOT_FOUND, reference_what, reference_advice},
    {YAML::ErrorMsg::ANCHOR_NOT_FOUND, reference_what, reference_advice},
    {YAML::ErrorMsg::CHAR_IN_ALIAS, reference_what, reference_advice},
    {YAML::ErrorMsg::CHAR_IN_ANCHOR, reference_what, reference_advice},
    {YAML::ErrorMsg::CHAR_IN_SCALAR, "this sign cannot stand here", quote_advice},
};

// A bracket left open is noticed lines later, where nobody would look for it.
Place bracket_place(std::string_view text, const CharacterPlaces& places, std::size_t noticed) {
  const Place place = places.at(noticed);
  const auto open = find_open_bracket(text, noticed);
  const Place opened = open ? places.at(*open) : place;
  return opened.line < place.line ? opened : place;
}

std::optional<ReadingEnd> space_missing(const CharacterPlaces& places, Place place) {
  for (int line = place.line; line >= 1 && line >= place.line - 1; --line) {
    const std::string_view text = places.line(line);
    const std::size_t start = text.find_first_not_of(' ');
    if (start == std::string_view::npos || !lacks_space_after_colon(text.substr(start))) continue;
    return ReadingEnd{{line, static_cast<int>(text.find(':')) + 1},
                      "a space is missing after ':'",
                      "write 'key: value'"};
  }
  return std::nullopt;
}

ReadingEnd syntax_end(const YAML::Exception& error, std::string_view text,
                      const CharacterPlaces& places, std::size_t reached) {
  const std::size_t offset =
      std::min(places.offset(error.mark.line, error.mark.column), text.find_last_not_of('\n'));
  const Place place = places.at(offset);
  const std::string_view said = error.msg;
  if (said == YAML::ErrorMsg::EOF_IN_SCALAR || said == YAML::ErrorMsg::DOC_IN_SCALAR) {
    const auto mark = find_open_quote(text, reached);
    return open_quote(mark ? places.at(*mark) : place);
  }
  if (auto missing = space_missing(places, place)) return *std::move(missing);
  const bool in_brackets =
      said == YAML::ErrorMsg::END_OF_MAP_FLOW || said == YAML::ErrorMsg::END_OF_SEQ_FLOW;
  const auto words =
      std::find_if(std::begin(syntax_words), std::end(syntax_words),
                   [said](const SyntaxWords& row) { return said.starts_with(row.library); });
  if (words == std::end(syntax_words))
    return {place, "this line cannot be read", "write 'key: value'; " + std::string(quote_advice)};
  return {in_brackets ? bracket_place(text, places, offset) : place, std::string(words->what),
          std::string(words->advice)};
}

ReadingEnd not_a_map(const Node& root, std::string_view format) {
  const std::string form = "write 'key: value' on each line" +
                           (format.empty() ? "" : ", first format: " + std::string(format));
  switch (root.kind) {
  case NodeKind::scalar:
    if (lacks_space_after_colon(root.text))
      return {root.place, "a space is missing after ':'", "write 'key: value'"};
    return {root.place, "there is only a text here, and no key", form};
  case NodeKind::list:
    return {root.place, "this file holds a list and no keys", form};
  default:
    return {{1, 1}, "this file is empty", form};
  }
}

// Throws a ReadingEnd unless the text is one map.
void build_tree(TreeBuilder& builder, std::string_view text, const CharacterPlaces& places,
                std::string_view format) {
  // Append an end of document, so that an open quotation mark is an error and not text.
  std::istringstream stream(std::string(text) + "\n...\n");
  try {
    YAML::Parser parser(stream);
    while (parser.HandleNextDocument(builder)) {
    }
  } catch (const YAML::Exception& error) {
    throw syntax_end(error, text, places, builder.reached());
  }
  if (!builder.root || builder.root->kind != NodeKind::map)
    throw not_a_map(builder.root.value_or(Node{}), format);
}

Message message_of(ReadingEnd end, const std::string& file) {
  Message message;
  message.file = file;
  message.line = end.place.line;
  message.column = end.place.column;
  message.what = std::move(end.what);
  message.advice = std::move(end.advice);
  return message;
}

} // namespace

bool has_key(const Node& map, std::string_view key) {
  return std::any_of(map.members.begin(), map.members.end(),
                     [key](const Member& member) { return member.key == key; });
}

bool lacks_space_after_colon(std::string_view word) {
  const auto colon = std::find_if_not(word.begin(), word.end(), is_key_character);
  if (colon == word.begin() || colon == word.end() || *colon != ':') return false;
  const auto after = colon + 1;
  return after != word.end() && *after != ' ' && *after != '/';
}

OrderDocument parse_order_document(std::string_view text, const std::string& file,
                                   std::size_t largest, std::string_view format) {
  const bool order = format == order_format;
  if (text.size() > largest)
    return {std::nullopt,
            {message_of({{1, 1},
                         "this text is larger than " + std::to_string(largest / 1024) +
                             " KB, far too large for " + (order ? "an order" : "such a file"),
                         order ? "check that this is an order; shorten its note and comments"
                               : "check that this is the right file"},
                        file)}};
  const std::string plain = with_plain_line_ends(text);
  const CharacterPlaces places(plain);
  TreeBuilder builder(plain, places, file);
  try {
    if (auto end = refuse_characters(plain, places)) throw *std::move(end);
    build_tree(builder, plain, places, format);
  } catch (ReadingEnd& end) {
    builder.root.reset();
    builder.messages.push_back(message_of(std::move(end), file));
  }
  return {std::move(builder.root), std::move(builder.messages)};
}

} // namespace shankline
