// feet_trial DIRECTORY: one order from every foot of a survey, solved, counted and timed.
//
// DIRECTORY holds ansur2_foot_female.csv and ansur2_foot_male.csv, the foot columns of the ANSUR II
// working databases (2012; Gordon et al. 2014, NATICK/TR-15/007; public release). They are not part
// of the project. What a survey lacks (arch, board, wishes) is drawn at random, seeded.

#include "geometry/solution/solution.hpp"
#include "tests/geometry/polygon_checks.hpp"
#include "tests/geometry/random_orders.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace {

using namespace shankline;
using namespace shankline::tests;

std::vector<std::string> cells(const std::string& line) {
  std::vector<std::string> result;
  std::istringstream in(line);
  std::string cell;
  while (std::getline(in, cell, ',')) {
    while (!cell.empty() && (cell.back() == '\r' || cell.back() == ' '))
      cell.pop_back();
    result.push_back(cell);
  }
  return result;
}

std::vector<FootSize> read_feet(const std::filesystem::path& file) {
  std::ifstream in(file);
  std::string line;
  if (!std::getline(in, line)) throw std::runtime_error("cannot read " + file.string());
  const std::vector<std::string> head = cells(line);
  const auto column = [&](const std::string& name) {
    const auto found = std::find(head.begin(), head.end(), name);
    if (found == head.end()) throw std::runtime_error(file.string() + ": no column " + name);
    return static_cast<std::size_t>(found - head.begin());
  };
  const std::size_t length = column("footlength");
  const std::size_t ball_length = column("balloffootlength");
  const std::size_t ball_width = column("footbreadthhorizontal");
  const std::size_t heel_width = column("heelbreadth");
  const std::size_t ankle_height = column("lateralmalleolusheight");
  const std::size_t ankle_girth = column("anklecircumference");
  std::vector<FootSize> feet;
  while (std::getline(in, line)) {
    const std::vector<std::string> row = cells(line);
    if (row.empty()) continue;
    const auto number = [&](std::size_t at) {
      if (at >= row.size()) throw std::runtime_error(file.string() + ": short row: " + line);
      return std::stod(row[at]);
    };
    feet.push_back({number(length), number(ball_length), number(ball_width), number(heel_width),
                    number(ankle_height), number(ankle_girth)});
  }
  return feet;
}

/// "feet.left.arch_break.medial" without the side: the kind of finding.
std::string kind_of(const std::string& key) {
  std::string kind;
  std::istringstream in(key);
  std::string part;
  while (std::getline(in, part, '.')) {
    if (part == "left" || part == "right") continue;
    kind += (kind.empty() ? "" : ".") + part;
  }
  return kind;
}

void print(const char* title, const std::map<std::string, int>& counts) {
  std::cout << "  " << title << ":";
  if (counts.empty()) std::cout << " none";
  std::cout << '\n';
  for (const auto& [kind, times] : counts)
    std::cout << "    " << kind << ' ' << times << '\n';
}

/// Feet that were neither solved nor refused with a reason.
int try_feet(const char* name, const std::vector<FootSize>& feet, Population population) {
  Draw draw(population == Population::women ? 71U : 72U);
  int solved = 0;
  int refused = 0;
  int unexplained = 0;
  int areas = 0;
  double area_error = 0;
  std::map<std::string, int> reasons;
  std::map<std::string, int> cautions;
  std::chrono::duration<double> time{};
  for (const FootSize& size : feet) {
    const Order order = random_order_of(draw, size, population);
    const auto start = std::chrono::steady_clock::now();
    const Solution solution = solve(order);
    time += std::chrono::steady_clock::now() - start;
    const std::optional<FootSolution>& foot = order.left ? solution.left : solution.right;
    for (const Finding& f : solution.findings)
      ++(f.severity == Severity::error ? reasons : cautions)[kind_of(f.key.text())];
    if (!foot) {
      ++refused;
      if (!has_error(solution.findings)) ++unexplained;
      continue;
    }
    ++solved;
    if (foot->pieces.kept && foot->pieces.removed) {
      const double whole = shoelace_area(foot->outline.polygon());
      const double parts = foot->pieces.kept->area + foot->pieces.removed->area;
      area_error = std::max(area_error, std::abs(parts - whole) / whole);
      ++areas;
    }
  }
  std::cout << name << ": " << feet.size() << " feet, " << solved << " solved, " << refused
            << " refused (" << unexplained << " without a reason)\n";
  print("refused for", reasons);
  print("cautions", cautions);
  std::cout << "  largest relative area error of " << areas << " cut boards: " << area_error << '\n'
            << "  time: " << time.count() << " s, "
            << 1000 * time.count() / static_cast<double>(std::max<std::size_t>(1, feet.size()))
            << " ms a foot\n";
  return unexplained;
}

} // namespace

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "usage: feet_trial DIRECTORY\n";
    return 2;
  }
  try {
    const std::filesystem::path directory = argv[1];
    const int women = try_feet("women", read_feet(directory / "ansur2_foot_female.csv"),
                               shankline::Population::women);
    const int men =
        try_feet("men", read_feet(directory / "ansur2_foot_male.csv"), shankline::Population::men);
    return women + men == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
  } catch (const std::exception& error) {
    std::cerr << "feet_trial: " << error.what() << '\n';
    return EXIT_FAILURE;
  }
}
