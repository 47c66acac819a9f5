#include "cli/surroundings/face_finder.hpp"

#include "cli/surroundings/loaded_library.hpp"

#include <algorithm>
#include <cstdlib>
#include <fontconfig/fontconfig.h>
#include <mutex>
#include <tuple>
#include <utility>

namespace shankline {
namespace {

/// The functions of fontconfig that are needed here, looked up by name; `ready` if all are there.
class Fontconfig : LoadedLibrary {
public:
  decltype(&FcInitLoadConfigAndFonts) load_config = nullptr;
  decltype(&FcPatternCreate) make_pattern = nullptr;
  decltype(&FcPatternAddString) add_string = nullptr;
  decltype(&FcPatternDestroy) destroy_pattern = nullptr;
  decltype(&FcObjectSetCreate) make_objects = nullptr;
  decltype(&FcObjectSetAdd) add_object = nullptr;
  decltype(&FcObjectSetDestroy) destroy_objects = nullptr;
  decltype(&FcFontList) list = nullptr;
  decltype(&FcPatternGetString) get_string = nullptr;
  decltype(&FcPatternGetInteger) get_integer = nullptr;
  decltype(&FcPatternGetBool) get_bool = nullptr;
  decltype(&FcPatternGetCharSet) get_characters = nullptr;
  decltype(&FcCharSetHasChar) has_character = nullptr;

  Fontconfig() : LoadedLibrary("libfontconfig.so.1") {
    ready_ =
        loaded() && look_up(load_config, "FcInitLoadConfigAndFonts") &&
        look_up(make_pattern, "FcPatternCreate") && look_up(add_string, "FcPatternAddString") &&
        look_up(destroy_pattern, "FcPatternDestroy") &&
        look_up(make_objects, "FcObjectSetCreate") && look_up(add_object, "FcObjectSetAdd") &&
        look_up(destroy_objects, "FcObjectSetDestroy") && look_up(list, "FcFontList") &&
        look_up(get_string, "FcPatternGetString") && look_up(get_integer, "FcPatternGetInteger") &&
        look_up(get_bool, "FcPatternGetBool") && look_up(get_characters, "FcPatternGetCharSet") &&
        look_up(has_character, "FcCharSetHasChar");
  }

  bool ready() const { return ready_; }

private:
  bool ready_ = false;
};

/// A face that could be embedded.
struct Candidate {
  FaceFile file;
  std::string family;
  int weight = FC_WEIGHT_REGULAR;
  int width = FC_WIDTH_NORMAL;
  bool monospaced = false;
  const FcCharSet* characters = nullptr; ///< belongs to the catalogue
};

/// Returns whether a family's strokes look like those of the base faces.
bool is_sans(const std::string& family) {
  return family.find("Sans") != std::string::npos || family.find("Gothic") != std::string::npos;
}

/// Families drawn to the widths of the base faces, so that one name with and one without a mark
/// look alike.
bool is_like_base(const std::string& family) {
  return family == "Liberation Sans" || family == "Arimo" || family == "Nimbus Sans";
}

/// Every face of this machine, listed once and kept to the end of the program.
class Catalogue {
public:
  Catalogue() {
    if (!fc_.ready()) return;
    config_ = fc_.load_config();
    if (!config_) return;
    list();
  }
  Catalogue(const Catalogue&) = delete;
  Catalogue& operator=(const Catalogue&) = delete;

  std::vector<Face> faces(const std::u32string& wanted) const {
    using Rank = std::tuple<std::size_t, int, int, bool, bool, bool, std::string, std::string, int>;
    std::vector<std::pair<Rank, const Candidate*>> ranked;
    for (const Candidate& c : candidates_) {
      const std::size_t lacking = wanted.size() - shown(c, wanted).size();
      if (lacking == wanted.size() || c.weight >= FC_WEIGHT_DEMIBOLD) continue;
      ranked.push_back({{lacking, std::abs(c.weight - FC_WEIGHT_REGULAR),
                         std::abs(c.width - FC_WIDTH_NORMAL), c.monospaced, !is_like_base(c.family),
                         !is_sans(c.family), c.family, c.file.path, c.file.index},
                        &c});
    }
    std::sort(ranked.begin(), ranked.end());
    std::vector<Face> faces;
    for (const auto& entry : ranked) {
      std::u32string shows = shown(*entry.second, wanted);
      faces.push_back({entry.second->file, bold_of(*entry.second, shows), std::move(shows)});
    }
    return faces;
  }

private:
  void list() {
    FcPattern* pattern = fc_.make_pattern();
    fc_.add_string(pattern, FC_FONTFORMAT, reinterpret_cast<const FcChar8*>("TrueType"));
    FcObjectSet* objects = fc_.make_objects();
    for (const char* object : {FC_FILE, FC_INDEX, FC_FAMILY, FC_WEIGHT, FC_WIDTH, FC_SLANT,
                               FC_SPACING, FC_VARIABLE, FC_CHARSET})
      fc_.add_object(objects, object);
    fonts_ = fc_.list(config_, pattern, objects);
    fc_.destroy_objects(objects);
    fc_.destroy_pattern(pattern);
    for (int i = 0; fonts_ && i < fonts_->nfont; ++i)
      add(fonts_->fonts[i]);
  }

  void add(FcPattern* pattern) {
    Candidate face;
    FcChar8* path = nullptr;
    FcCharSet* characters = nullptr;
    if (fc_.get_string(pattern, FC_FILE, 0, &path) != FcResultMatch ||
        fc_.get_characters(pattern, FC_CHARSET, 0, &characters) != FcResultMatch)
      return;
    const auto integer = [&](const char* object, int otherwise) {
      int value = 0;
      return fc_.get_integer(pattern, object, 0, &value) == FcResultMatch ? value : otherwise;
    };
    FcBool variable = FcFalse;
    const bool varies =
        fc_.get_bool(pattern, FC_VARIABLE, 0, &variable) == FcResultMatch && variable;
    face.file = {reinterpret_cast<const char*>(path), integer(FC_INDEX, 0)};
    constexpr int numbers_of_a_collection = 0xffff; // above: instances of a variable face
    if (varies || integer(FC_SLANT, FC_SLANT_ROMAN) != FC_SLANT_ROMAN ||
        face.file.index > numbers_of_a_collection)
      return;
    face.family = family_of(pattern);
    face.weight = integer(FC_WEIGHT, FC_WEIGHT_REGULAR);
    face.width = integer(FC_WIDTH, FC_WIDTH_NORMAL);
    face.monospaced = integer(FC_SPACING, FC_PROPORTIONAL) >= FC_MONO;
    face.characters = characters;
    candidates_.push_back(std::move(face));
  }

  /// A family has names in several languages, and the locale decides which comes first: the
  /// smallest is in Latin letters, if one is.
  std::string family_of(FcPattern* pattern) const {
    std::string family;
    FcChar8* name = nullptr;
    for (int i = 0; fc_.get_string(pattern, FC_FAMILY, i, &name) == FcResultMatch; ++i) {
      const std::string other = reinterpret_cast<const char*>(name);
      if (family.empty() || other < family) family = other;
    }
    return family;
  }

  std::u32string shown(const Candidate& face, const std::u32string& wanted) const {
    std::u32string shows;
    for (const char32_t character : wanted)
      if (fc_.has_character(face.characters, static_cast<FcChar32>(character))) shows += character;
    return shows;
  }

  FaceFile bold_of(const Candidate& regular, const std::u32string& shows) const {
    const Candidate* best = nullptr;
    for (const Candidate& c : candidates_) {
      if (c.family != regular.family || c.width != regular.width || c.weight < FC_WEIGHT_DEMIBOLD ||
          shown(c, shows) != shows)
        continue;
      const auto rank = [](const Candidate& face) {
        return std::make_tuple(std::abs(face.weight - FC_WEIGHT_BOLD), face.file.path,
                               face.file.index);
      };
      if (!best || rank(c) < rank(*best)) best = &c;
    }
    return best ? best->file : regular.file;
  }

  Fontconfig fc_;
  FcConfig* config_ = nullptr;
  FcFontSet* fonts_ = nullptr;
  std::vector<Candidate> candidates_;
};

} // namespace

FindFaces faces_of_this_machine() {
  return [](const std::u32string& characters) {
    // All orders of a batch share one catalogue; the first that needs it makes it. It is never
    // destroyed: the library has exit handlers of its own. A lock lets in one thread at a time: the
    // library claims to be safe for several, but the thread sanitizer disagrees.
    static std::mutex one_at_a_time;
    const std::lock_guard lock(one_at_a_time);
    static const Catalogue* const catalogue = new Catalogue;
    return catalogue->faces(characters);
  };
}

} // namespace shankline
