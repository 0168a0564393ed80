#include "job/file/further_files.h"

#include "job/file/file_text.h"

namespace tacksquare {

std::optional<std::size_t> FurtherFiles::open(const Element& e, const std::string& path) {
  const auto known = by_path_.find(path);
  if (known != by_path_.end()) return known->second;
  if (!open_) {
    e.out().error("file-unread", e.where("file"), "no other files are read with this job",
                  "state what the file holds in the job");
    return {};
  }
  auto read = open_(path);
  if (const auto* fault = std::get_if<FileFault>(&read)) {
    e.out().error("file-unread", e.where("file"), fault->message, fault->remedy);
    return {};
  }
  by_path_.emplace(path, files_.size());
  files_.push_back(std::move(std::get<FileRead>(read)));
  return files_.size() - 1;
}

void FurtherFiles::read(Element& e, const FileKind& kind, const std::function<void(Element&)>& reader) {
  const auto path = e.text("file");
  if (!path) return;
  std::optional<std::size_t> index;
  if (bytes_ <= kLargestJobFile) {
    index = open(e, *path);
    if (!index) return;
    bytes_ += files_[*index].text.size();
  }
  if (bytes_ > kLargestJobFile) {
    e.out().error("files-large", e.where("file"),
                  "the files that this job refers to are together longer than the largest that is read, " +
                      std::to_string(kLargestJobFile) + " bytes",
                  "is this a " + std::string(kind.what) + " file?");
    return;
  }
  Diagnostics found;
  FileText text(files_[*index].text, *index + 1, found);
  if (auto root = text.root(kind)) reader(*root);
  for (const Diagnostic& d : found.items()) {
    const std::size_t second = d.also ? d.also->where.offset : Origin::nowhere;
    if (told_.insert({d.where.file, d.where.offset, d.message, second}).second) e.out().append({d});
  }
}

} // namespace tacksquare
