#include "page_file.h"

#include <fstream>

#include "weatherstruck/base/fault.h"

namespace weatherstruck::app {

void write_page(const std::string& path, const std::string& bytes) {
  std::ofstream out(path, std::ios::binary | std::ios::trunc);
  out << bytes;
  out.close();
  if (!out) {
    throw base::InputError(path,
                           {{"unwritable", "", "the page could not be written", "a file that can be made",
                             "Check the folder, its rights and the room on the disk."}});
  }
}

}  // namespace weatherstruck::app
