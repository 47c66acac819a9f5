#include "cli/order_file/roster_section.hpp"

#include <algorithm>
#include <utility>

namespace shankline {
namespace {

/// Inside brackets a comma or a brace would end the text.
std::string in_brackets(const Node& scalar) {
  if (!scalar.quoted && scalar.text.find_first_of(",[]{}:#'\"&*!|>%@`") == std::string::npos)
    return scalar.text;
  std::string text = "'";
  for (const char c : scalar.text)
    text += c == '\'' ? std::string("''") : std::string(1, c);
  return text + "'";
}

} // namespace

std::string on_one_line(const Node& node) {
  std::string text;
  switch (node.kind) {
  case NodeKind::nothing:
    return "";
  case NodeKind::scalar:
    return in_brackets(node);
  case NodeKind::list:
    for (const Node& item : node.items)
      text += (text.empty() ? "" : ", ") + on_one_line(item);
    return "[" + text + "]";
  case NodeKind::map:
    for (const Member& member : node.members)
      text += (text.empty() ? "" : ", ") + member.key + ": " + on_one_line(member.value);
    return "{" + text + "}";
  }
  return text;
}

RosterSection::RosterSection(const Node* common) {
  if (common) branches_ = branches_of(*common);
}

std::vector<RosterSection::Branch> RosterSection::branches_of(const Node& map) {
  std::vector<Branch> branches;
  for (const Member& member : map.members) {
    Branch branch{member.key, {{}, member.place.line, {}}, {}, {}};
    if (member.value.kind == NodeKind::map && !member.value.members.empty())
      branch.below = branches_of(member.value);
    else
      branch.value = on_one_line(member.value);
    branches.push_back(std::move(branch));
  }
  return branches;
}

bool RosterSection::put(std::string_view path, const std::string& value, std::size_t column) {
  const auto find = [](std::vector<Branch>& among, std::string_view key) {
    return std::find_if(among.begin(), among.end(),
                        [&](const Branch& branch) { return branch.key == key; });
  };
  std::vector<Branch>* at = &branches_;
  while (true) {
    const std::size_t dot = path.find('.');
    const std::string key(path.substr(0, dot));
    const auto there = find(*at, key);
    const bool last = dot == std::string_view::npos;
    if (there != at->end()) {
      if (last != there->below.empty() || (last && there->origin.common_line == 0)) return false;
      if (last) {
        there->value = value;
        there->origin = {{}, 0, column};
      }
      at = &there->below;
    } else {
      at->push_back({key,
                     {{}, 0, last ? std::optional(column) : std::nullopt},
                     last ? value : std::string(),
                     {}});
      if (!last) at = &at->back().below;
    }
    if (last) return true;
    path.remove_prefix(dot + 1);
  }
}

void RosterSection::write(const std::vector<Branch>& branches, std::size_t indent,
                          std::vector<SectionLine>& lines) {
  for (const Branch& branch : branches) {
    SectionLine line = branch.origin;
    line.text = std::string(indent, ' ') + branch.key + ":" +
                (branch.value.empty() ? "" : " " + branch.value);
    lines.push_back(std::move(line));
    write(branch.below, indent + 2, lines);
  }
}

std::vector<SectionLine> RosterSection::lines(std::size_t indent) const {
  std::vector<SectionLine> lines;
  write(branches_, indent, lines);
  return lines;
}

} // namespace shankline
