#include "export/lettering/lettering.hpp"

#include "export/lettering/code_point.hpp"
#include "export/lettering/composition.hpp"
#include "export/lettering/face_trial.hpp"
#include "export/lettering/plain_script.hpp"
#include "export/lettering/winansi.hpp"

#include <algorithm>

namespace shankline {
namespace {

bool shows(const Face& face, char32_t character) {
  return std::binary_search(face.shows.begin(), face.shows.end(), character);
}

bool shows_all(const Face& face, std::u32string_view characters) {
  return std::all_of(characters.begin(), characters.end(),
                     [&](char32_t character) { return shows(face, character); });
}

bool in_base_faces(std::u32string_view characters) {
  return std::all_of(characters.begin(), characters.end(),
                     [](char32_t character) { return winansi_byte(character) != 0; });
}

/// The first face for which `fits`; none if there is none.
template <class Fits>
std::optional<std::size_t> first_face(const Lettering& lettering, const Fits& fits) {
  const auto& faces = lettering.faces;
  const auto found = std::find_if(faces.begin(), faces.end(), fits);
  if (found == faces.end()) return std::nullopt;
  return static_cast<std::size_t>(found - faces.begin());
}

class Runs {
public:
  explicit Runs(const Lettering& lettering) : lettering_(lettering) {}

  /// A word and the space before it, if any.
  void add(std::u32string_view word) {
    if (word.empty()) return;
    const auto whole =
        in_base_faces(word)
            ? std::nullopt
            : first_face(lettering_, [&](const Face& f) { return shows_all(f, word); });
    for (const char32_t character : word)
      add(character, whole);
  }

  std::vector<LetterRun> take() && { return std::move(runs_); }

private:
  void add(char32_t character, std::optional<std::size_t> face) {
    const char base = winansi_byte(character);
    if (!face && !base)
      face = first_face(lettering_, [&](const Face& f) { return shows(f, character); });
    if (runs_.empty() || runs_.back().face != face) runs_.push_back({face, {}});
    if (face)
      runs_.back().bytes += to_utf8(character);
    else
      runs_.back().bytes += base ? base : '?';
  }

  const Lettering& lettering_;
  std::vector<LetterRun> runs_;
};

void add_once(std::vector<std::string>& characters, char32_t character) {
  std::string utf8 = to_utf8(character);
  if (std::find(characters.begin(), characters.end(), utf8) == characters.end())
    characters.push_back(std::move(utf8));
}

std::u32string printable_ascii() {
  std::u32string characters;
  for (char32_t c = 0x21; c < 0x7f; ++c)
    characters += c;
  return characters;
}

class Chooser {
public:
  explicit Chooser(const FindFaces& find) : find_(find) {}

  void add(const std::string& text) {
    const std::u32string characters = composed(code_points(text));
    if (in_base_faces(characters)) return;
    std::u32string wanted = printable_ascii(); // a sheet sets commas and colons behind a name
    for (const char32_t character : characters) {
      if (is_plain_script(character))
        wanted += character;
      else if (!winansi_byte(character))
        add_once(chosen_.missing_characters.without_shaping, character);
    }
    std::sort(wanted.begin(), wanted.end());
    wanted.erase(std::unique(wanted.begin(), wanted.end()), wanted.end());
    want(std::move(wanted));
  }

  ChosenLettering take() && { return std::move(chosen_); }

private:
  /// Face after face until every character is shown, or no face shows one more.
  void want(std::u32string wanted) {
    std::u32string lacking = missing(wanted);
    bool more = !lacking.empty() && find_;
    while (more) {
      more = take_face(wanted, lacking);
      const std::u32string still = missing(wanted);
      more = more && !still.empty() && still.size() < lacking.size();
      wanted = lacking = still;
    }
    for (const char32_t character : lacking)
      add_once(chosen_.missing_characters.without_face, character);
  }

  std::u32string missing(const std::u32string& wanted) const {
    std::u32string lacking;
    for (const char32_t character : wanted)
      if (!winansi_byte(character) &&
          !first_face(chosen_.lettering, [&](const Face& f) { return shows(f, character); }))
        lacking += character;
    return lacking;
  }

  bool take_face(const std::u32string& wanted, const std::u32string& lacking) {
    for (Face& face : find_(wanted)) {
      const auto helps = [&](char32_t character) { return shows(face, character); };
      if (std::none_of(lacking.begin(), lacking.end(), helps)) continue;
      auto& known = chosen_.lettering.faces;
      const auto same = std::find_if(known.begin(), known.end(), [&](const Face& other) {
        return other.regular == face.regular;
      });
      if (same != known.end()) {
        std::u32string both;
        std::set_union(same->shows.begin(), same->shows.end(), face.shows.begin(), face.shows.end(),
                       std::back_inserter(both));
        same->shows = std::move(both);
        return true;
      }
      if (!trial_.takes(face.regular)) continue;
      if (!(face.bold == face.regular) && !trial_.takes(face.bold)) face.bold = face.regular;
      known.push_back(std::move(face));
      return true;
    }
    return false;
  }

  const FindFaces& find_;
  FaceTrial trial_;
  ChosenLettering chosen_;
};

} // namespace

bool is_ascii(std::string_view words) {
  return std::all_of(words.begin(), words.end(), [](char c) { return c >= 0x20 && c < 0x7f; });
}

std::vector<LetterRun> letter_runs(std::string_view words, const Lettering& lettering) {
  if (is_ascii(words)) return {{std::nullopt, std::string(words)}};
  const std::u32string characters = composed(code_points(words));
  Runs runs(lettering);
  std::u32string_view rest = characters;
  while (!rest.empty()) {
    const std::size_t word = rest.find(U' ');
    runs.add(rest.substr(0, word));
    if (word == std::u32string_view::npos) break;
    runs.add(U" ");
    rest.remove_prefix(word + 1);
  }
  return std::move(runs).take();
}

ChosenLettering choose_lettering(const std::vector<std::string>& texts, const FindFaces& find) {
  Chooser chooser(find);
  for (const std::string& text : texts)
    chooser.add(text);
  return std::move(chooser).take();
}

} // namespace shankline
