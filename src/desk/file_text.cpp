#include "weatherstruck/desk/file_text.h"

#include <cerrno>
#include <cstring>
#include <fstream>
#include <system_error>

#include "weatherstruck/base/fault.h"

namespace weatherstruck::desk {
namespace {

namespace fs = std::filesystem;

}  // namespace

std::string text_of_file(const fs::path& path, std::string_view expected, std::size_t most) {
  const auto refuse = [&](std::string code, std::string found, std::string remedy) {
    throw base::InputError(
        path.string(), {{std::move(code), "", std::move(found), std::string(expected), std::move(remedy)}});
  };
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (status.type() == fs::file_type::not_found) {
    refuse("no-such-file", "no such file",
           expected == "a job document"
               ? "Check the path; \"weatherstruck job blank\" prints a job to fill in."
               : "Check the path.");
  }
  if (status.type() == fs::file_type::directory) refuse("not-a-file", "a folder", "Name the file in it.");
  errno = 0;
  std::ifstream in(path, std::ios::binary);
  if (!in)
    refuse("unreadable", errno != 0 ? std::strerror(errno) : "cannot be opened", "Check who may read it.");
  std::string text(most + 1, '\0');
  in.read(text.data(), static_cast<std::streamsize>(text.size()));
  if (in.bad()) refuse("unreadable", "reading stopped half way", "Try again.");
  text.resize(static_cast<std::size_t>(in.gcount()));
  return text;
}

}  // namespace weatherstruck::desk
