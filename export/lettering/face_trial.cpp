#include "export/lettering/face_trial.hpp"

#include "export/lettering/face_file.hpp"

#include <algorithm>
#include <hpdf.h>
#include <new>
#include <vector>

namespace shankline {

struct FaceTrial::Document {
  std::unique_ptr<std::remove_pointer_t<HPDF_Doc>, decltype(&HPDF_Free)> pdf{
      HPDF_New(nullptr, nullptr), HPDF_Free};
  std::vector<FaceFile> taken;
  std::vector<std::string> names;
};

FaceTrial::FaceTrial() = default;
FaceTrial::~FaceTrial() = default;

bool FaceTrial::takes(const FaceFile& face) {
  if (!document_) {
    document_ = std::make_unique<Document>();
    if (!document_->pdf) throw std::bad_alloc();
    HPDF_UseUTFEncodings(document_->pdf.get());
  }
  std::vector<FaceFile>& taken = document_->taken;
  if (std::find(taken.begin(), taken.end(), face) != taken.end()) return true;
  if (!may_be_embedded(face)) return false;
  const HPDF_Doc pdf = document_->pdf.get();
  const char* name = is_collection(face)
                         ? HPDF_LoadTTFontFromFile2(pdf, face.path.c_str(),
                                                    static_cast<HPDF_UINT>(face.index), HPDF_TRUE)
                         : HPDF_LoadTTFontFromFile(pdf, face.path.c_str(), HPDF_TRUE);
  // If two faces have one name, the library silently uses the first one for both.
  std::vector<std::string>& names = document_->names;
  const bool is_new = name && std::find(names.begin(), names.end(), name) == names.end();
  const bool usable = is_new && HPDF_GetFont(pdf, name, "UTF-8");
  HPDF_ResetError(pdf); // of one face only, the next may do
  if (usable) {
    taken.push_back(face);
    names.emplace_back(name);
  }
  return usable;
}

} // namespace shankline
