#include "job/file/file_text.h"

#include "job/file/read_job.h"

#include <algorithm>

namespace tacksquare {

namespace {

std::string xml_fault(pugi::xml_parse_status status) {
  switch (status) {
  case pugi::status_bad_pi:
    return "a <? ... ?> is not closed or not well formed";
  case pugi::status_bad_comment:
    return "a comment is not closed: --> is missing";
  case pugi::status_bad_cdata:
    return "a CDATA section is not closed: ]]> is missing";
  case pugi::status_bad_start_element:
    return "a start tag is not well formed";
  case pugi::status_bad_attribute:
    return "an attribute is not well formed: name=\"value\"";
  case pugi::status_bad_end_element:
    return "an end tag is not well formed";
  case pugi::status_end_element_mismatch:
    return "an end tag is missing, or does not fit its start tag";
  case pugi::status_no_document_element:
    return "this is not XML: there is no element";
  default:
    return "this is not XML";
  }
}

// The element that holds all, reported when it is not the one wanted.
std::optional<Element> root_of(const pugi::xml_document& doc, const FileKind& kind, Reading& reading) {
  const std::string wanted(kind.root), what(kind.what);
  std::optional<Element> root;
  for (const auto node : doc.children()) {
    if (node.type() != pugi::node_element) continue;
    Element element(node, reading);
    if (root) {
      reading.out().error("root-twice", element.where(), "a second root element " + quoted(node.name()),
                          "a file holds one " + what, Note{"the first one", root->where()});
      continue;
    }
    root = element;
    if (element.is(wanted)) continue;
    reading.out().error("root-wrong", element.where(),
                        "the root element is " + quoted(node.name()) + ", not \"" + wanted + "\"",
                        "is this a " + what + " file? It starts with <" + wanted + ">");
  }
  return root && root->is(wanted) ? root : std::nullopt;
}

} // namespace

bool FileText::parse(const FileKind& kind, Diagnostics& found) {
  if (text_.size() > kLargestJobFile) {
    found.error("file-large", {0},
                "the file has " + std::to_string(text_.size()) +
                    " bytes, more than the largest that is read, " + std::to_string(kLargestJobFile),
                "is this a " + std::string(kind.what) + " file?");
    return false;
  }
  if (!scan_text(text_, kind, found)) return false;
  buffer_ = text_;
  const auto parsed =
      doc_.load_buffer_inplace(buffer_.data(), buffer_.size(), pugi::parse_default, pugi::encoding_utf8);
  if (parsed) return true;
  const auto at = static_cast<std::size_t>(std::max<std::ptrdiff_t>(0, parsed.offset));
  found.error("xml", {std::min(at, text_.size())}, xml_fault(parsed.status),
              "what follows this place is not read until it is put right");
  return false;
}

std::optional<Element> FileText::root(const FileKind& kind) {
  Diagnostics found; // as if the file were alone
  const bool parsed = parse(kind, found);
  for (Diagnostic d : found.items()) {
    d.where.file = file_;
    out_.append({d});
  }
  if (!parsed) return {};
  reading_.emplace(buffer_.data(), file_, out_);
  return root_of(doc_, kind, *reading_);
}

} // namespace tacksquare
