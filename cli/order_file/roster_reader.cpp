#include "cli/order_file/roster_reader.hpp"

#include "cli/order_file/order_reader.hpp"
#include "cli/order_file/order_writer.hpp"
#include "cli/order_file/roster_section.hpp"
#include "cli/text/characters.hpp"
#include "cli/text/csv.hpp"
#include "cli/text/nearest_word.hpp"
#include "cli/text/word_list.hpp"
#include "cli/yaml/order_characters.hpp"
#include "cli/yaml/order_document.hpp"
#include "cli/yaml/yaml_text.hpp"
#include "geometry/order/reading_guide.hpp"
#include "geometry/solution/solution.hpp"

#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <utility>

namespace shankline {
namespace {

/// Keys of the whole order that a roster may give for each dancer.
constexpr std::array<std::string_view, 9> order_columns{
    "pair", "date", "due", "quantity", "note", "pose", "read_by", "decided_by", "growing"};
constexpr std::array<std::string_view, 3> roll_columns{"roll", "roll.side", "roll.raise"};
/// Sections of which a roster may give any key, one column each: "shoe.board.length".
constexpr std::array<std::string_view, 2> section_keys{"shoe", "alterations"};
constexpr std::array<std::string_view, 3> feet{"left", "right", "both"};

bool is_of_order(const std::string& column) {
  return std::find(order_columns.begin(), order_columns.end(), column) != order_columns.end();
}

/// Returns the part before the first dot: "arch_break" for "arch_break.medial".
std::string outer_key(const std::string& column) {
  return column.substr(0, column.find('.'));
}

bool is_of_section(std::string_view column, std::string_view section) {
  return column.size() > section.size() + 1 && column.starts_with(section) &&
         column[section.size()] == '.';
}
/// Returns the part behind the section: "board.length" for "shoe.board.length".
std::string_view key_in_section(std::string_view column) {
  return column.substr(column.find('.') + 1);
}
bool is_of_a_section(std::string_view column) {
  return std::any_of(section_keys.begin(), section_keys.end(),
                     [&](std::string_view section) { return is_of_section(column, section); });
}

struct Header {
  std::vector<std::string> columns; ///< keys by column; empty for a refused column
  std::size_t dancer = 0;
  std::size_t foot = 0;
};

/// The row, and the column if there is one, that a line of an order's text was made from.
struct Origin {
  const CsvRow* row = nullptr;
  std::optional<std::size_t> column;
  int common_line = 0; ///< of a common value that is written again for each dancer; from 1
};

class RosterReader {
public:
  RosterReader(const std::string& file, std::string_view common, const std::string& common_file)
      : file_(file), common_(with_plain_line_ends(common)), common_file_(common_file) {
    if (!common_.empty() && common_.back() != '\n') common_ += '\n';
    common_lines_ = static_cast<int>(std::count(common_.begin(), common_.end(), '\n'));
  }

  ReadRoster read(std::string_view text) && {
    auto rows = read_csv(text);
    if (const CsvFault* fault = std::get_if<CsvFault>(&rows)) {
      refuse({file_, fault->line, fault->column},
             "row " + std::to_string(fault->row) + ": " + fault->what, {}, fault->advice);
      return std::move(roster_);
    }
    rows_ = std::move(std::get<std::vector<CsvRow>>(rows));
    const bool common_is_sound = read_common();
    if (read_header() && common_is_sound) read_dancers();
    if (!roster_.ok()) roster_.orders.clear();
    roster_.messages = without_repeats(std::move(roster_.messages));
    return std::move(roster_);
  }

private:
  struct Spot {
    std::string file;
    int line = 0;
    int column = 0;
  };

  void refuse(const Spot& at, std::string what, std::string allowed, std::string advice,
              std::string key = {}) {
    roster_.messages.push_back({Severity::error, at.file, at.line, at.column, std::move(key),
                                std::move(what), std::move(allowed), std::move(advice)});
  }

  static std::vector<Message> without_repeats(std::vector<Message> messages) {
    std::vector<Message> kept;
    for (Message& message : messages)
      if (std::find(kept.begin(), kept.end(), message) == kept.end())
        kept.push_back(std::move(message));
    return kept;
  }

  /// "row 12, column F"
  std::string cell_name(const CsvRow& row, std::size_t column) const {
    return "row " + std::to_string(row.number) + ", column " + csv_column_name(column);
  }

  void refuse_cell(const CsvRow& row, std::size_t column, const std::string& what,
                   std::string allowed, std::string advice) {
    const CsvField& field = row.fields[column];
    refuse({file_, field.line, field.column}, cell_name(row, column) + ": " + what,
           std::move(allowed), std::move(advice), header_.columns[column]);
  }

  /// Returns false if no order can be made with the common values.
  bool read_common() {
    const OrderDocument document = parse_order_document(common_, common_file_, largest_order, "");
    for (const Message& message : document.messages)
      if (message.severity == Severity::error) roster_.messages.push_back(message);
    if (!document.root) return false;
    const std::size_t begin = common_.find_first_not_of(" \n");
    if (begin != std::string::npos && common_[begin] == '{') {
      refuse({common_file_},
             "the common values stand in braces, and the dancers' cannot follow them", {},
             "write one key a line, as in an order file");
      return false;
    }
    common_root_ = *document.root;
    for (const Member& member : document.root->members) {
      common_keys_[member.key] = member.place;
      if (member.key == "dancer" || member.key == "feet")
        refuse({common_file_, member.place.line, member.place.column},
               "is not the same for every dancer", "every other key of an order",
               "delete it here: the roster gives it", member.key);
    }
    return true;
  }

  /// Returns false if the rows cannot be read with this header.
  bool read_header() {
    if (rows_.empty()) {
      refuse({file_}, "there is no row in this file", {},
             "write the keys into the first row, then a row for each dancer and foot");
      return false;
    }
    const CsvRow& first = rows_.front();
    std::vector<std::string> known = roster_columns();
    known.insert(known.begin(), {"dancer", "foot"});
    bool sound = true;
    header_.columns.resize(first.fields.size());
    for (std::size_t i = 0; i < first.fields.size(); ++i) {
      const std::string& name = first.fields[i].text;
      const auto wrong = [&](const std::string& what, std::string advice) {
        refuse_cell(first, i, what,
                    in_words(known, "or") + ", or a key of shoe or alterations, such as "
                                            "shoe.board.length",
                    std::move(advice));
        sound = false;
      };
      if (is_of_a_section(name))
        sound = is_free_of_section(i) && sound;
      else if (std::find(known.begin(), known.end(), name) == known.end())
        wrong(name.empty() ? "this column has no key"
                           : shown(name) + " is not a key that a roster may have",
              name.empty() ? "write its key into the first row, or delete the column"
                           : "write the key as an order has it, without left or right." +
                                 guess_words(name, known));
      else if (std::find(header_.columns.begin(), header_.columns.end(), name) !=
               header_.columns.end())
        wrong("two columns are headed " + name, "keep one of them");
      else
        header_.columns[i] = name;
      if (name != "dancer" && common_keys_.contains(name)) {
        refuse_cell(first, i, name + " is in the common values, too", {},
                    "keep it in one of the two places");
        sound = false;
      }
    }
    for (const char* needed : {"dancer", "foot"}) {
      const auto at = std::find(header_.columns.begin(), header_.columns.end(), needed);
      if (at == header_.columns.end()) {
        refuse({file_, 1, 1}, std::string("row 1: there is no column ") + needed, {},
               std::string("head a column with ") + needed);
        sound = false;
      } else {
        (std::string_view(needed) == "foot" ? header_.foot : header_.dancer) =
            static_cast<std::size_t>(at - header_.columns.begin());
      }
    }
    if (rows_.size() == 1) {
      refuse({file_}, "there is no dancer in this file", {},
             "write a row for each dancer and foot");
      sound = false;
    }
    if (rows_.size() > most_roster_rows + 1) {
      refuse({file_}, "there are " + std::to_string(rows_.size() - 1) + " rows",
             "at most " + std::to_string(most_roster_rows), "divide the roster");
      sound = false;
    }
    return sound;
  }

  /// The section's values that all dancers share; null if there are none.
  const Node* common_section(std::string_view section) const {
    for (const Member& member : common_root_.members)
      if (member.key == section) return &member.value;
    return nullptr;
  }

  /// Takes a column of a section if its key has no other value; returns false after an error.
  bool is_free_of_section(std::size_t column) {
    const CsvRow& first = rows_.front();
    const std::string& name = first.fields[column].text;
    const std::string section = outer_key(name);
    const std::string_view path = key_in_section(name);
    const Node* common = common_section(section);
    const auto refuse_it = [&](const std::string& what, std::string advice) {
      refuse_cell(first, column, what, {}, std::move(advice));
      return false;
    };
    if (path.starts_with('.') || path.ends_with('.') || path.find("..") != std::string_view::npos)
      return refuse_it(shown(name) + " lacks a key beside a dot", "write one dot between two keys");
    for (const std::string_view foot : feet)
      if (outer_key(std::string(path)) == foot)
        return refuse_it(shown(name) + " names a foot", "leave it out: the row names the foot");
    if (common && std::any_of(feet.begin(), feet.end(),
                              [&](std::string_view foot) { return has_key(*common, foot); }))
      return refuse_it("the common values of " + section + " differ between the feet",
                       "give all keys of " + section + " that differ as columns");
    if (!RosterSection(common).put(path, "x", column))
      return refuse_it("the common values are made up of other keys at " + name,
                       "give each of their keys a column of its own");
    RosterSection taken(nullptr);
    for (std::size_t i = 0; i < column; ++i)
      if (is_of_section(header_.columns[i], section))
        taken.put(key_in_section(header_.columns[i]), "x", i);
    if (!taken.put(path, "x", column))
      return refuse_it("another column gives " + name + ", or a part of it", "keep one of them");
    header_.columns[column] = name;
    return true;
  }

  /// Empties the lines of those sections that columns add to: they are written again for each
  /// dancer. The other lines keep their numbers.
  void set_sections_aside() {
    std::vector<std::string> lines;
    for (std::size_t begin = 0; begin < common_.size();) {
      const std::size_t end = common_.find('\n', begin);
      lines.push_back(common_.substr(begin, end - begin));
      begin = end + 1;
    }
    const auto& members = common_root_.members;
    for (const std::string_view section : section_keys) {
      if (!has_columns(section)) continue;
      for (std::size_t k = 0; k < members.size(); ++k)
        if (members[k].key == section) {
          const std::size_t end = k + 1 < members.size()
                                      ? static_cast<std::size_t>(members[k + 1].place.line - 1)
                                      : lines.size();
          for (auto i = static_cast<std::size_t>(members[k].place.line - 1); i < end; ++i)
            lines[i].clear();
        }
    }
    common_.clear();
    for (const std::string& each : lines)
      common_ += each + "\n";
  }

  bool has_columns(std::string_view section) const {
    return std::any_of(header_.columns.begin(), header_.columns.end(),
                       [&](const std::string& column) { return is_of_section(column, section); });
  }

  void read_dancers() {
    set_sections_aside();
    std::vector<std::string> order; // in the order of the file
    std::map<std::string, std::vector<const CsvRow*>> dancers;
    for (std::size_t i = 1; i < rows_.size(); ++i) {
      const CsvRow& row = rows_[i];
      const std::string& dancer = row.fields[header_.dancer].text;
      if (!is_dancer(row, dancer) || !is_foot(row)) continue;
      std::vector<const CsvRow*>& rows = dancers[dancer];
      if (rows.empty()) order.push_back(dancer);
      if (is_free(row, rows)) rows.push_back(&row);
    }
    for (const std::string& dancer : order)
      make_order(dancer, dancers[dancer]);
  }

  /// Checks that the code can be a file name: the order is named after it.
  bool is_dancer(const CsvRow& row, const std::string& dancer) {
    if (dancer.empty()) {
      refuse_cell(row, header_.dancer, "there is no dancer's code", {}, "write the dancer's code");
      return false;
    }
    const bool named = dancer.find_first_of("/\\\n\t") == std::string::npos &&
                       dancer.front() != '.' && dancer.front() != '-' && dancer.size() <= 40;
    if (named) return true;
    refuse_cell(row, header_.dancer, shown(dancer) + " cannot name a file",
                "at most 40 bytes, without slashes, and no point or hyphen in front",
                "take a short code, such as M-07");
    return false;
  }

  bool is_foot(const CsvRow& row) {
    const std::string& foot = row.fields[header_.foot].text;
    if (std::find(feet.begin(), feet.end(), foot) != feet.end()) return true;
    refuse_cell(row, header_.foot, foot.empty() ? "no foot is named" : shown(foot) + " is no foot",
                "left, right or both", "write which foot this row is about");
    return false;
  }

  /// Returns true if the dancer's other rows leave room for this foot.
  bool is_free(const CsvRow& row, const std::vector<const CsvRow*>& rows) {
    const std::string& foot = row.fields[header_.foot].text;
    for (const CsvRow* other : rows) {
      const std::string& has = other->fields[header_.foot].text;
      if (has != foot && has != "both" && foot != "both") continue;
      refuse_cell(row, header_.foot,
                  "row " + std::to_string(other->number) + " is about this dancer's " +
                      (has == "both" ? "feet" : has + " foot") + " already",
                  "one row for each foot, or one for both", "delete one of them");
      return false;
    }
    return true;
  }

  void line(const std::string& text, const CsvRow* row, std::optional<std::size_t> column) {
    text_ += text + "\n";
    origins_.push_back({row, column});
  }

  static std::string scalar(std::string_view text) {
    return yaml_scalar(without_outer_spaces(text));
  }

  /// Returns a cell as an order writes it. A cell may hold repeats, with semicolons or in brackets,
  /// and its own doubt, as "61 within 2".
  static std::string value(const std::string& text) {
    std::string_view inside = text;
    char between = ';';
    if (inside.starts_with('[') && inside.ends_with(']')) {
      inside = inside.substr(1, inside.size() - 2);
      between = ',';
    }
    if (constexpr std::string_view within = " within "; between == ';')
      if (const std::size_t at = text.rfind(within); at != std::string::npos)
        return "{value: " + value(text.substr(0, at)) +
               ", within: " + scalar(std::string_view(text).substr(at + within.size())) + "}";
    if (between == ';' && text.find(';') == std::string::npos) return scalar(text);
    std::string list;
    while (true) {
      const std::size_t end = std::min(inside.find(between), inside.size());
      list += (list.empty() ? "" : ", ") + scalar(inside.substr(0, end));
      if (end == inside.size()) break;
      inside.remove_prefix(end + 1);
    }
    return "[" + list + "]";
  }

  void make_order(const std::string& dancer, const std::vector<const CsvRow*>& rows) {
    text_ = common_;
    origins_.clear();
    if (!common_keys_.contains("format")) line("format: " + std::string(order_format), nullptr, {});
    line("dancer: " + scalar(dancer), rows.front(), header_.dancer);
    for (std::size_t i = 0; i < header_.columns.size(); ++i)
      if (is_of_order(header_.columns[i])) write_of_order(i, rows);
    line("feet:", rows.front(), {});
    for (const CsvRow* row : rows)
      write_foot(*row);
    for (const std::string_view section : section_keys)
      if (has_columns(section)) write_section(section, rows);
    ReadOrder read = read_order(text_, file_);
    if (read.ok()) {
      const Solution solution = solve(read.order);
      if (has_error(solution.findings))
        take_messages(without_decider(read.place(solution.findings), *rows.front()), dancer);
      else
        roster_.orders.push_back({dancer, order_file_text(read.order)});
    } else {
      take_messages(read.messages, {});
    }
  }

  /// Writes a value of the whole order once. All rows of the dancer must agree on it.
  void write_of_order(std::size_t column, const std::vector<const CsvRow*>& rows) {
    const CsvRow* said = nullptr;
    for (const CsvRow* row : rows) {
      const std::string& text = row->fields[column].text;
      if (text.empty()) continue;
      if (said && said->fields[column].text != text)
        refuse_cell(*row, column,
                    shown(text) + " is not what row " + std::to_string(said->number) +
                        " says of the same dancer",
                    shown(said->fields[column].text), "write it once, or the same in both rows");
      if (!said) said = row;
    }
    if (said)
      line(header_.columns[column] + ": " + scalar(said->fields[column].text), said, column);
  }

  /// Returns a cell of a section as an order writes it: one value, or a list in brackets.
  static std::string section_value(const std::string& text) {
    if (!text.starts_with('[')) return scalar(text);
    const OrderDocument list = parse_order_document("list: " + text, "");
    if (!list.root || !list.messages.empty() || list.root->members.size() != 1)
      return scalar(text); // no list: the order's reader says so
    return on_one_line(list.root->members.front().value);
  }

  /// Writes a section for each foot that has a value in it.
  void write_section(std::string_view key, const std::vector<const CsvRow*>& rows) {
    bool begun = false;
    for (const CsvRow* row : rows) {
      RosterSection section(common_section(key));
      for (std::size_t i = 0; i < header_.columns.size(); ++i)
        if (is_of_section(header_.columns[i], key) && !row->fields[i].text.empty())
          section.put(key_in_section(header_.columns[i]), section_value(row->fields[i].text), i);
      const std::vector<SectionLine> lines = section.lines(4);
      if (lines.empty()) continue;
      if (!std::exchange(begun, true)) line(std::string(key) + ":", row, {});
      line("  " + row->fields[header_.foot].text + ":", row, {});
      for (const SectionLine& each : lines) {
        text_ += each.text + "\n";
        origins_.push_back({each.common_line > 0 ? nullptr : row, each.column, each.common_line});
      }
    }
  }

  void write_foot(const CsvRow& row) {
    line("  " + row.fields[header_.foot].text + ":", &row, header_.foot);
    std::vector<std::string> done;
    for (std::size_t i = 0; i < header_.columns.size(); ++i) {
      const std::string& column = header_.columns[i];
      const std::string key = outer_key(column);
      if (i == header_.dancer || i == header_.foot || is_of_order(column) ||
          is_of_a_section(column) || row.fields[i].text.empty() ||
          std::find(done.begin(), done.end(), key) != done.end())
        continue;
      if (column == key) {
        line("    " + column + ": " + value(row.fields[i].text), &row, i);
        continue;
      }
      done.push_back(key);
      line("    " + key + ":", &row, i);
      for (std::size_t part = i; part < header_.columns.size(); ++part)
        if (header_.columns[part] != key && outer_key(header_.columns[part]) == key &&
            !row.fields[part].text.empty())
          line("      " + header_.columns[part].substr(key.size() + 1) + ": " +
                   value(row.fields[part].text),
               &row, part);
    }
  }

  /// Refuses the dancer's own row for an adult who is not named: whoever decides is not the same
  /// for all. Returns the other messages.
  std::vector<Message> without_decider(std::vector<Message> messages, const CsvRow& row) {
    constexpr std::string_view key = "decided_by";
    std::erase_if(messages, [&](const Message& message) {
      if (message.key != key) return false;
      const auto found = std::find(header_.columns.begin(), header_.columns.end(), key);
      const bool there = found != header_.columns.end();
      const auto column = static_cast<std::size_t>(found - header_.columns.begin());
      refuse_cell(row, there ? column : header_.dancer, message.what, message.allowed,
                  std::string("Ask a licensed physiotherapist or podiatrist first, then write the "
                              "code of the adult who decides ") +
                      (there ? "into this cell" : "in this row, in a column decided_by") +
                      ". For a grown dancer with small feet write false in a column growing.");
      return true;
    });
    return messages;
  }

  /// Moves each error from its line in the order's text to the cell that the line was made from.
  /// `solved` is the dancer whose order was solved; it is empty for errors found while reading,
  /// which are the same for all dancers if they are in the common file.
  void take_messages(const std::vector<Message>& messages, const std::string& solved) {
    for (Message message : messages) {
      if (message.severity != Severity::error) continue;
      const int own = message.line - common_lines_;
      const Origin origin = own > 0 && own <= static_cast<int>(origins_.size())
                                ? origins_[static_cast<std::size_t>(own - 1)]
                                : Origin{};
      if (!origin.row) {
        message.file = common_file_;
        if (message.line > common_lines_) {
          message.line = origin.common_line;
          message.key = without_foot(message.key); // it is the same for both
          message.column = 0;
        }
        if (!solved.empty()) message.what = "dancer " + solved + ": " + message.what;
        roster_.messages.push_back(std::move(message));
        continue;
      }
      if (origin.column) {
        refuse_cell(*origin.row, *origin.column, without_key(message, *origin.column),
                    message.allowed, message.advice);
        continue;
      }
      const CsvField& first = origin.row->fields.front();
      refuse({file_, first.line, first.column},
             "row " + std::to_string(origin.row->number) + ": " + message.what, message.allowed,
             message.advice, message.key);
    }
  }

  /// Returns the message's words without the key, since the cell's column names it. An error about
  /// a missing key is placed at the foot's cell and therefore names the key.
  std::string without_key(const Message& message, std::size_t column) const {
    if (column != header_.foot) return message.what;
    const std::size_t dot = message.key.rfind('.');
    return (dot == std::string::npos ? message.key : message.key.substr(dot + 1)) + ": " +
           message.what;
  }

  /// Returns "shoe.board" for "shoe.left.board".
  static std::string without_foot(const std::string& key) {
    const std::size_t dot = key.find('.');
    if (dot == std::string::npos) return key;
    const std::string below = key.substr(dot + 1);
    const bool names_foot = std::find(feet.begin(), feet.end(), outer_key(below)) != feet.end();
    return names_foot ? key.substr(0, dot) + below.substr(outer_key(below).size()) : key;
  }

  const std::string& file_;
  std::string common_;
  const std::string& common_file_;
  int common_lines_ = 0;
  std::map<std::string, Place> common_keys_;
  Node common_root_;
  std::vector<CsvRow> rows_;
  Header header_;
  std::string text_;            ///< of the order that is being made
  std::vector<Origin> origins_; ///< of its lines behind the common ones
  ReadRoster roster_;
};

} // namespace

std::vector<std::string> roster_columns() {
  std::vector<std::string> columns(order_columns.begin(), order_columns.end());
  for (const ReadingGuide& row : reading_guides())
    if (row.in_foot || outer_key(std::string(row.key)) == "arch_break")
      columns.emplace_back(row.key);
  columns.insert(columns.end(), roll_columns.begin(), roll_columns.end());
  return columns;
}

ReadRoster read_roster(std::string_view rows, const std::string& file, std::string_view common,
                       const std::string& common_file) {
  return RosterReader(file, common, common_file).read(rows);
}

} // namespace shankline
