// Chooses a face for each run of words: the base faces where they suffice, this machine's faces for
// the rest.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace shankline {

/// A TrueType face in a file; several share one in a collection.
struct FaceFile {
  std::string path;
  int index = 0;

  friend bool operator==(const FaceFile&, const FaceFile&) = default;
};

/// Regular and bold of one family; the same file twice where there is no bold.
struct Face {
  FaceFile regular;
  FaceFile bold;
  std::u32string shows; ///< sorted; of the characters it was asked about
};

/// Faces that show all of these characters, or some if none shows all: the best first.
using FindFaces = std::function<std::vector<Face>(const std::u32string& characters)>;

struct Lettering {
  std::vector<Face> faces;
};

/// Words of one face that follow one another.
struct LetterRun {
  std::optional<std::size_t> face; ///< of the lettering; none for the base faces
  std::string bytes;               ///< WinAnsi for the base faces, UTF-8 for a face
};

/// Printable ASCII, most of a sheet: one run of the base faces, byte for byte.
bool is_ascii(std::string_view words);

/// A word that the base faces cannot show is all in one face if there is one that shows it, so that
/// a name looks even. Letters and marks are put together first. What nothing shows is '?'.
std::vector<LetterRun> letter_runs(std::string_view words, const Lettering& lettering);

/// Characters in UTF-8, each once; on paper each is a '?'.
struct MissingCharacters {
  std::vector<std::string> without_face;
  std::vector<std::string> without_shaping; ///< see is_plain_script

  bool empty() const { return without_face.empty() && without_shaping.empty(); }
};

struct ChosenLettering {
  Lettering lettering;
  MissingCharacters missing_characters;
};

/// Asks for faces only when a text needs one, and takes only such as may be embedded.
ChosenLettering choose_lettering(const std::vector<std::string>& texts, const FindFaces& find);

} // namespace shankline
