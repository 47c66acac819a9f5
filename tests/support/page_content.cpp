// The content operators of a page, as far as the sheets use them. An operator that would draw
// something not measured here is an error, so that nothing escapes.
#include "tests/support/readback.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <functional>
#include <map>
#include <stdexcept>

namespace shankline::tests {
namespace {

constexpr double flatten_within = 0.0005; // mm

struct Affine {
  double a = 1, b = 0, c = 0, d = 1, e = 0, f = 0;

  Point operator()(double x, double y) const { return {a * x + c * y + e, b * x + d * y + f}; }
  /// First this, then the other.
  Affine then(const Affine& other) const {
    return {a * other.a + b * other.c,           a * other.b + b * other.d,
            c * other.a + d * other.c,           c * other.b + d * other.d,
            e * other.a + f * other.c + other.e, e * other.b + f * other.d + other.f};
  }
  double scale() const { return std::sqrt(std::abs(a * d - b * c)); }
};

Point in_mm(Point points) {
  return {points.x * mm_per_point, points.y * mm_per_point};
}

struct Operand {
  double number = 0;
  bool is_number = false;
  std::string text;            ///< of a string or a name
  std::vector<double> numbers; ///< of an array
};

bool is_space(char letter) {
  return std::string_view("\0\t\n\f\r ", 6).find(letter) != std::string_view::npos;
}

bool is_delimiter(char letter) {
  return std::string_view("()<>[]{}/%").find(letter) != std::string_view::npos;
}

/// Splits the stream into operands, each run of them ended by an operator.
class Scanner {
public:
  explicit Scanner(std::string_view text) : text_(text) {}

  /// False at the end of the stream.
  bool next(std::string& op, std::vector<Operand>& operands) {
    operands.clear();
    while (skip_space()) {
      const char letter = text_[at_];
      if (letter == '(' || letter == '[' || letter == '/' || letter == '<') {
        operands.push_back(operand());
        continue;
      }
      std::string word(regular());
      if (word.empty()) throw std::runtime_error(std::string("stray '") + letter + "'");
      if (std::string_view("+-.0123456789").find(word[0]) != std::string_view::npos) {
        operands.push_back(number(word));
        continue;
      }
      op = std::move(word);
      return true;
    }
    if (!operands.empty()) throw std::runtime_error("operands without an operator at the end");
    return false;
  }

private:
  bool skip_space() {
    while (at_ < text_.size()) {
      if (text_[at_] == '%')
        at_ = std::min(text_.find_first_of("\r\n", at_), text_.size());
      else if (is_space(text_[at_]))
        ++at_;
      else
        return true;
    }
    return false;
  }

  std::string_view regular() {
    const std::size_t begin = at_;
    while (at_ < text_.size() && !is_space(text_[at_]) && !is_delimiter(text_[at_]))
      ++at_;
    return text_.substr(begin, at_ - begin);
  }

  static Operand number(std::string_view word) {
    Operand operand;
    operand.is_number = true;
    const std::string_view digits = word.starts_with('+') ? word.substr(1) : word;
    const char* const end = digits.data() + digits.size();
    const auto [stop, error] = std::from_chars(digits.data(), end, operand.number);
    if (error != std::errc() || stop != end || !std::isfinite(operand.number))
      throw std::runtime_error("'" + std::string(word) + "' is not a number");
    return operand;
  }

  Operand operand() {
    switch (text_[at_]) {
    case '(':
      return literal_string();
    case '[':
      return array();
    case '/': {
      ++at_;
      Operand name;
      name.text = regular();
      return name;
    }
    default:
      return text_.substr(at_, 2) == "<<" ? dictionary() : hexadecimal_string();
    }
  }

  Operand literal_string() {
    Operand string;
    int depth = 0;
    for (; at_ < text_.size(); ++at_) {
      const char letter = text_[at_];
      if (letter == '\\') {
        string.text += escape();
        continue;
      }
      if (letter == '(' && depth++ == 0) continue;
      if (letter == ')' && --depth == 0) {
        ++at_;
        return string;
      }
      string.text += letter;
    }
    throw std::runtime_error("a string without an end");
  }

  /// Stands on the backslash; leaves `at_` on the last character used.
  std::string escape() {
    const char letter = ++at_ < text_.size() ? text_[at_] : '\\';
    if (letter >= '0' && letter <= '7') {
      int code = 0;
      std::size_t used = 0;
      while (used < 3 && at_ + used < text_.size() && text_[at_ + used] >= '0' &&
             text_[at_ + used] <= '7')
        code = code * 8 + (text_[at_ + used++] - '0');
      at_ += used - 1;
      return std::string(1, static_cast<char>(code));
    }
    if (letter == '\n') return {};
    const std::string_view names = "nrtbf";
    const std::size_t found = names.find(letter);
    return std::string(1, found == std::string_view::npos ? letter : "\n\r\t\b\f"[found]);
  }

  Operand hexadecimal_string() {
    Operand string;
    std::string digits;
    for (++at_; at_ < text_.size() && text_[at_] != '>'; ++at_)
      if (!is_space(text_[at_])) digits += text_[at_];
    if (at_++ >= text_.size()) throw std::runtime_error("a string without an end");
    if (digits.size() % 2 != 0) digits += '0';
    for (std::size_t i = 0; i < digits.size(); i += 2) {
      int code = 0;
      const auto [stop, error] = std::from_chars(&digits[i], &digits[i] + 2, code, 16);
      if (error != std::errc() || stop != &digits[i] + 2)
        throw std::runtime_error("'" + digits.substr(i, 2) + "' is no byte");
      string.text += static_cast<char>(code);
    }
    return string;
  }

  Operand array() {
    Operand all;
    ++at_;
    while (skip_space()) {
      if (text_[at_] == ']') {
        ++at_;
        return all;
      }
      if (std::string_view("(</").find(text_[at_]) != std::string_view::npos)
        all.text += operand().text;
      else
        all.numbers.push_back(number(regular()).number);
    }
    throw std::runtime_error("an array without an end");
  }

  /// Skips the dictionary of marked content; it draws nothing.
  Operand dictionary() {
    const std::size_t end = text_.find(">>", at_);
    if (end == std::string_view::npos) throw std::runtime_error("a dictionary without an end");
    at_ = end + 2;
    return {};
  }

  std::string_view text_;
  std::size_t at_ = 0;
};

struct State {
  Affine user; ///< user space to the page, printer's points
  double width = 1;
  double stroke_grey = 0;
  double fill_grey = 0;
  std::vector<double> dash;
  double dash_start = 0;
  int cap = 0;
  std::optional<PaperBox> clip;
  double font_size = 0;
  double leading = 0;
};

struct SubPath {
  Polyline points; ///< mm on the page
  bool closed = false;
};

constexpr double coloured = -1;

double grey_of(double red, double green, double blue) {
  return red == green && green == blue ? red : coloured;
}

class Interpreter {
public:
  PaperPage run(std::string_view operators) {
    Scanner scanner(operators);
    std::string op;
    while (scanner.next(op, operands_)) {
      const auto found = table().find(op);
      if (found == table().end()) throw std::runtime_error("operator '" + op + "' is not measured");
      if (found->second.operands >= 0 &&
          operands_.size() != static_cast<std::size_t>(found->second.operands))
        throw std::runtime_error("operator '" + op + "' with " + std::to_string(operands_.size()) +
                                 " operands");
      found->second.act(*this);
    }
    if (!kept_.empty()) fault(std::to_string(kept_.size()) + " q without Q");
    if (!path_.empty()) fault("a path is left open");
    if (in_text_) fault("BT without ET");
    return std::move(page_);
  }

private:
  struct Operator {
    int operands; ///< -1: any
    std::function<void(Interpreter&)> act;
  };

  static const std::map<std::string, Operator, std::less<>>& table() {
    using I = Interpreter;
    const auto nothing = [](I&) {};
    static const std::map<std::string, Operator, std::less<>> operators{
        {"q", {0, [](I& i) { i.kept_.push_back(i.state_); }}},
        {"Q", {0, [](I& i) { i.restore(); }}},
        {"cm", {6, [](I& i) { i.state_.user = i.matrix().then(i.state_.user); }}},
        {"w", {1, [](I& i) { i.state_.width = i.number(0); }}},
        {"J", {1, [](I& i) { i.state_.cap = static_cast<int>(i.number(0)); }}},
        {"j", {1, nothing}},
        {"M", {1, nothing}},
        {"i", {1, nothing}},
        {"ri", {1, nothing}},
        {"d", {2, [](I& i) { i.set_dash(); }}},
        {"G", {1, [](I& i) { i.state_.stroke_grey = i.number(0); }}},
        {"g", {1, [](I& i) { i.state_.fill_grey = i.number(0); }}},
        {"RG", {3, [](I& i) { i.state_.stroke_grey = i.grey(); }}},
        {"rg", {3, [](I& i) { i.state_.fill_grey = i.grey(); }}},
        {"K", {4, [](I& i) { i.state_.stroke_grey = i.grey_of_inks(); }}},
        {"k", {4, [](I& i) { i.state_.fill_grey = i.grey_of_inks(); }}},
        {"m",
         {2,
          [](I& i) {
            i.path_.push_back({{i.point(0)}, false});
          }}},
        {"l", {2, [](I& i) { i.open_path().points.push_back(i.point(0)); }}},
        {"c", {6, [](I& i) { i.curve(i.point(0), i.point(2), i.point(4)); }}},
        {"v", {4, [](I& i) { i.curve(i.current(), i.point(0), i.point(2)); }}},
        {"y", {4, [](I& i) { i.curve(i.point(0), i.point(2), i.point(2)); }}},
        {"h", {0, [](I& i) { i.open_path().closed = true; }}},
        {"re", {4, [](I& i) { i.rectangle(); }}},
        {"S", {0, [](I& i) { i.paint(true, false, false); }}},
        {"s", {0, [](I& i) { i.paint(true, false, true); }}},
        {"f", {0, [](I& i) { i.paint(false, true, false); }}},
        {"F", {0, [](I& i) { i.paint(false, true, false); }}},
        {"f*", {0, [](I& i) { i.paint(false, true, false); }}},
        {"B", {0, [](I& i) { i.paint(true, true, false); }}},
        {"B*", {0, [](I& i) { i.paint(true, true, false); }}},
        {"b", {0, [](I& i) { i.paint(true, true, true); }}},
        {"b*", {0, [](I& i) { i.paint(true, true, true); }}},
        {"n", {0, [](I& i) { i.paint(false, false, false); }}},
        {"W", {0, [](I& i) { i.clip_next_ = true; }}},
        {"W*", {0, [](I& i) { i.clip_next_ = true; }}},
        {"BT", {0, [](I& i) { i.begin_text(); }}},
        {"ET", {0, [](I& i) { i.end_text(); }}},
        {"Tf", {2, [](I& i) { i.state_.font_size = i.number(1); }}},
        {"TL", {1, [](I& i) { i.state_.leading = i.number(0); }}},
        {"Tc", {1, nothing}},
        {"Tw", {1, nothing}},
        {"Tz", {1, nothing}},
        {"Ts", {1, nothing}},
        {"Tr", {1, nothing}},
        {"Td", {2, [](I& i) { i.next_line(i.number(0), i.number(1)); }}},
        {"TD",
         {2,
          [](I& i) {
            i.state_.leading = -i.number(1);
            i.next_line(i.number(0), i.number(1));
          }}},
        {"Tm", {6, [](I& i) { i.line_ = i.matrix(); }}},
        {"T*", {0, [](I& i) { i.next_line(0, -i.state_.leading); }}},
        {"Tj", {1, [](I& i) { i.show(0); }}},
        {"TJ", {1, [](I& i) { i.show(0); }}},
        {"'",
         {1,
          [](I& i) {
            i.next_line(0, -i.state_.leading);
            i.show(0);
          }}},
        {"\"",
         {3,
          [](I& i) {
            i.next_line(0, -i.state_.leading);
            i.show(2);
          }}},
        {"BMC", {1, nothing}},
        {"BDC", {2, nothing}},
        {"EMC", {0, nothing}},
        {"MP", {1, nothing}},
        {"DP", {2, nothing}},
    };
    return operators;
  }

  double number(std::size_t index) const {
    if (!operands_.at(index).is_number) throw std::runtime_error("an operand is not a number");
    return operands_[index].number;
  }
  Point point(std::size_t index) const {
    return in_mm(state_.user(number(index), number(index + 1)));
  }
  Affine matrix() const {
    return {number(0), number(1), number(2), number(3), number(4), number(5)};
  }
  double grey() const { return grey_of(number(0), number(1), number(2)); }
  double grey_of_inks() const {
    return number(0) == 0 && number(1) == 0 && number(2) == 0 ? 1 - number(3) : coloured;
  }

  void fault(std::string what) { page_.faults.push_back(std::move(what)); }

  void restore() {
    if (kept_.empty()) {
      fault("Q without q");
      return;
    }
    state_ = std::move(kept_.back());
    kept_.pop_back();
  }

  void set_dash() {
    state_.dash = operands_.at(0).numbers;
    state_.dash_start = number(1);
  }

  SubPath& open_path() {
    if (path_.empty()) throw std::runtime_error("a path without its first point");
    if (path_.back().closed) path_.push_back({{path_.back().points.front()}, false});
    return path_.back();
  }

  Point current() { return open_path().points.back(); }

  void curve(Point first, Point second, Point end) {
    Polyline& points = open_path().points;
    const Point start = points.back();
    const double bend =
        std::max(std::hypot(start.x - 2 * first.x + second.x, start.y - 2 * first.y + second.y),
                 std::hypot(first.x - 2 * second.x + end.x, first.y - 2 * second.y + end.y));
    const int steps =
        std::max(1, static_cast<int>(std::ceil(std::sqrt(0.75 * bend / flatten_within))));
    for (int step = 1; step < steps; ++step) {
      const double t = static_cast<double>(step) / steps;
      const double u = 1 - t;
      const double w0 = u * u * u, w1 = 3 * u * u * t, w2 = 3 * u * t * t, w3 = t * t * t;
      points.push_back({w0 * start.x + w1 * first.x + w2 * second.x + w3 * end.x,
                        w0 * start.y + w1 * first.y + w2 * second.y + w3 * end.y});
    }
    points.push_back(end);
  }

  void rectangle() {
    const double x = number(0), y = number(1), width = number(2), height = number(3);
    const auto corner = [this](double cx, double cy) { return in_mm(state_.user(cx, cy)); };
    path_.push_back(
        {{corner(x, y), corner(x + width, y), corner(x + width, y + height), corner(x, y + height)},
         true});
  }

  void paint(bool stroke, bool fill, bool close) {
    if (close && !path_.empty()) path_.back().closed = true;
    if (fill) {
      PaperFill filled;
      for (const SubPath& part : path_)
        filled.rings.push_back(part.points);
      filled.grey = state_.fill_grey;
      filled.clip = state_.clip;
      page_.fills.push_back(std::move(filled));
    }
    for (SubPath& part : path_)
      if (stroke && part.points.size() > 1) page_.strokes.push_back(stroked(part));
    if (clip_next_) narrow_clip();
    clip_next_ = false;
    path_.clear();
  }

  PaperStroke stroked(const SubPath& part) const {
    const double scale = state_.user.scale();
    PaperStroke stroke;
    stroke.points = part.points;
    stroke.closed = part.closed;
    stroke.width = state_.width * scale * mm_per_point;
    stroke.grey = state_.stroke_grey;
    for (const double length : state_.dash)
      stroke.dash.push_back(length * scale);
    stroke.dash_start = state_.dash_start * scale;
    stroke.cap = state_.cap;
    stroke.clip = state_.clip;
    // An end drawn onto the beginning closes the line as surely as an h does.
    const auto same = [](Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y) < 1e-4; };
    if (stroke.points.size() > 3 && same(stroke.points.front(), stroke.points.back())) {
      stroke.points.pop_back();
      stroke.closed = true;
    }
    return stroke;
  }

  void narrow_clip() {
    std::optional<PaperBox> box;
    for (const SubPath& part : path_)
      for (const Point point : part.points) {
        if (!box) box = PaperBox{point, point};
        box->low = {std::min(box->low.x, point.x), std::min(box->low.y, point.y)};
        box->high = {std::max(box->high.x, point.x), std::max(box->high.y, point.y)};
      }
    if (box && state_.clip) {
      box->low = {std::max(box->low.x, state_.clip->low.x),
                  std::max(box->low.y, state_.clip->low.y)};
      box->high = {std::min(box->high.x, state_.clip->high.x),
                   std::min(box->high.y, state_.clip->high.y)};
    }
    if (box) state_.clip = box;
  }

  void begin_text() {
    if (in_text_) fault("BT inside BT");
    in_text_ = true;
    line_ = {};
  }

  void end_text() {
    if (!in_text_) fault("ET without BT");
    in_text_ = false;
  }

  void next_line(double x, double y) { line_ = Affine{1, 0, 0, 1, x, y}.then(line_); }

  void show(std::size_t index) {
    if (!in_text_) fault("text outside BT and ET");
    const Affine onto_page = line_.then(state_.user);
    page_.texts.push_back(
        {in_mm(onto_page(0, 0)), state_.font_size * onto_page.scale(), operands_.at(index).text});
  }

  std::vector<Operand> operands_;
  State state_;
  std::vector<State> kept_;
  std::vector<SubPath> path_;
  bool clip_next_ = false;
  bool in_text_ = false;
  Affine line_; ///< start of the current line of text, in user space
  PaperPage page_;
};

} // namespace

PaperPage read_content(std::string_view operators) {
  return Interpreter().run(operators);
}

} // namespace shankline::tests
