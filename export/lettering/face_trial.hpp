// Tries whether a face can and may be embedded in a PDF, before it is chosen.
#pragma once

#include "export/lettering/lettering.hpp"

#include <memory>

namespace shankline {

/// Loads faces as the writer will, all into one document: the PDF library takes no two of one name.
class FaceTrial {
public:
  FaceTrial();
  ~FaceTrial();
  FaceTrial(const FaceTrial&) = delete;
  FaceTrial& operator=(const FaceTrial&) = delete;

  /// False for a file that is none, is no TrueType face, or whose maker forbids embedding a part of
  /// it (fsType of its table OS/2).
  bool takes(const FaceFile& face);

private:
  struct Document;
  std::unique_ptr<Document> document_; ///< made when the first face is tried
};

} // namespace shankline
