#include "weatherstruck/record/photographs.h"

#include <fmt/format.h>

#include <array>

#include "job_rows.h"
#include "weatherstruck/base/digest.h"
#include "weatherstruck/record/folder.h"
#include "weatherstruck/record/record_error.h"

namespace weatherstruck::record {
namespace {

struct Form {
  PhotographKind kind;
  std::string_view word;
  std::string_view title;
  std::string_view ending;
};
constexpr std::array<Form, 5> forms{{{PhotographKind::jpeg, "jpeg", "JPEG", ".jpg"},
                                     {PhotographKind::png, "png", "PNG", ".png"},
                                     {PhotographKind::webp, "webp", "WebP", ".webp"},
                                     {PhotographKind::heic, "heic", "HEIC", ".heic"},
                                     {PhotographKind::pdf, "pdf", "PDF", ".pdf"}}};

const Form& form_of(PhotographKind kind) {
  return forms[static_cast<std::size_t>(kind)];
}

// The first bytes of each: JPEG SOI and the marker after it (ITU-T T.81, B.1.1.3), PNG (W3C PNG, 5.2), PDF
// (ISO 32000-1, 7.5.2).
constexpr std::string_view jpeg_begins{"\xFF\xD8\xFF"};
constexpr std::string_view png_begins{"\x89PNG\r\n\x1A\n"};
constexpr std::string_view pdf_begins{"%PDF-"};
// RIFF, four bytes of length, WEBP (RFC 9649, 2.4).
constexpr std::string_view riff{"RIFF"};
constexpr std::string_view webp{"WEBP"};
// Four bytes of length, ftyp, and the brand (ISO/IEC 14496-12, 4.3); brands of ISO/IEC 23008-12, annex B.
constexpr std::string_view file_type{"ftyp"};
constexpr std::array<std::string_view, 8> heic_brands{"heic", "heix", "heim", "heis",
                                                      "hevc", "hevx", "mif1", "msf1"};

}  // namespace

std::optional<PhotographKind> photograph_kind(std::string_view bytes) {
  const auto begins = [&](std::string_view with) { return bytes.substr(0, with.size()) == with; };
  const auto at = [&](std::size_t place) {
    return bytes.size() >= place + 4 ? bytes.substr(place, 4) : std::string_view();
  };
  if (begins(jpeg_begins)) return PhotographKind::jpeg;
  if (begins(png_begins)) return PhotographKind::png;
  if (begins(pdf_begins)) return PhotographKind::pdf;
  if (begins(riff) && at(8) == webp) return PhotographKind::webp;
  if (at(4) == file_type) {
    for (const std::string_view brand : heic_brands) {
      if (at(8) == brand) return PhotographKind::heic;
    }
  }
  return std::nullopt;
}

std::string_view word_of(PhotographKind kind) {
  return form_of(kind).word;
}

std::optional<PhotographKind> photograph_kind_named(std::string_view word) {
  for (const Form& form : forms) {
    if (form.word == word) return form.kind;
  }
  return std::nullopt;
}

std::string_view title_of(PhotographKind kind) {
  return form_of(kind).title;
}

std::string photograph_kinds_allowed() {
  std::string out;
  for (std::size_t i = 0; i < forms.size(); ++i)
    out += std::string(i == 0 ? "" : i + 1 == forms.size() ? " or " : ", ") + std::string(forms[i].title);
  return out;
}

std::string content_of_bytes(std::string_view bytes) {
  const base::Sha256 hash = base::sha256(bytes);
  return hexadecimal(std::string(hash.begin(), hash.end()));
}

std::string mark_of(const Photograph& photograph) {
  return photograph.content.substr(0, 8);
}

std::filesystem::path photographs_folder(const std::filesystem::path& record) {
  return record.parent_path() / "photographs";
}

std::filesystem::path photograph_file(const std::filesystem::path& record, const Photograph& photograph) {
  return photographs_folder(record) / (photograph.content + std::string(form_of(photograph.kind).ending));
}

std::string_view words_of(PhotographState state) {
  switch (state) {
    case PhotographState::whole:
      return "whole";
    case PhotographState::missing:
      return "missing";
    case PhotographState::changed:
      return "changed since it was kept";
    case PhotographState::unreadable:
      break;
  }
  return "cannot be read";
}

PhotographState state_of(const std::filesystem::path& record, const Photograph& photograph) {
  const std::filesystem::path file = photograph_file(record, photograph);
  std::error_code failure;
  const std::filesystem::file_status status = std::filesystem::status(file, failure);
  if (status.type() == std::filesystem::file_type::not_found) return PhotographState::missing;
  if (status.type() != std::filesystem::file_type::regular) return PhotographState::unreadable;
  const std::uintmax_t size = std::filesystem::file_size(file, failure);
  if (failure) return PhotographState::unreadable;
  if (size != static_cast<std::uintmax_t>(photograph.size)) return PhotographState::changed;
  try {
    return content_of_bytes(read_whole_file(file)) == photograph.content ? PhotographState::whole
                                                                         : PhotographState::changed;
  } catch (const RecordError&) {
    return PhotographState::unreadable;
  }
}

}  // namespace weatherstruck::record
