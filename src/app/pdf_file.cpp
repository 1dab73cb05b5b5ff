#include "weatherstruck/app/pdf_file.h"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <chrono>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "page_file.h"
#include "weatherstruck/base/fault.h"

namespace weatherstruck::app {
namespace {

namespace fs = std::filesystem;

constexpr std::chrono::minutes longest{3};

[[noreturn]] void refuse(const std::string& path, const std::string& code, const std::string& found,
                         const std::string& allowed, const std::string& remedy) {
  throw base::InputError(path, {{code, "", found, allowed, remedy}});
}

/// A folder that nobody else can look into, gone with this object.
class Scratch {
 public:
  explicit Scratch(const std::string& wanted) {
    std::string name = (fs::temp_directory_path() / "weatherstruck-XXXXXX").string();
    if (mkdtemp(name.data()) == nullptr)
      refuse(wanted, "unwritable", "no folder for passing things could be made", "room for one",
             "Look at the folder named by TMPDIR, or /tmp.");
    folder_ = name;
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch() {
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
  }
  [[nodiscard]] const fs::path& folder() const { return folder_; }

 private:
  fs::path folder_;
};

/// nullopt where there is no such program; else whether it ended well in time. What it says is dropped.
std::optional<bool> run(std::vector<std::string> words) {
  std::vector<char*> arguments;
  arguments.reserve(words.size() + 1);
  for (std::string& word : words)
    arguments.push_back(word.data());
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t actions{};
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, "/dev/null", O_WRONLY, 0);
  posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  const int failure = posix_spawnp(&child, arguments[0], &actions, nullptr, arguments.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  if (failure != 0) return {};
  const auto until = std::chrono::steady_clock::now() + longest;
  int status = 0;
  while (true) {
    const pid_t ended = waitpid(child, &status, WNOHANG);
    if (ended == child) break;
    if (ended < 0 && errno != EINTR) return false;
    if (std::chrono::steady_clock::now() > until) {
      kill(child, SIGKILL);
      waitpid(child, &status, 0);
      return false;
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
  }
  return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

std::vector<std::string> words_for(const std::string& program, const fs::path& page, const fs::path& pdf) {
  if (program == "weasyprint") return {program, page.string(), pdf.string()};
  if (program == "wkhtmltopdf")
    return {program, "--quiet", "--disable-javascript", page.string(), pdf.string()};
  std::vector<std::string> words{program,
                                 "--headless",
                                 "--disable-gpu",
                                 "--no-pdf-header-footer",
                                 "--user-data-dir=" + (page.parent_path() / "browser").string(),
                                 "--print-to-pdf=" + pdf.string()};
  // It refuses to run as root otherwise. The page is ours, has no script and asks nothing of a network.
  if (geteuid() == 0) words.emplace_back("--no-sandbox");
  words.push_back("file://" + page.string());
  return words;
}

}  // namespace

void write_pdf(const std::string& path, const std::string& html) {
  const Scratch scratch(path);
  const fs::path page = scratch.folder() / "page.html";
  const fs::path pdf = scratch.folder() / "page.pdf";
  write_page(page.string(), html);
  std::string tried;
  for (const char* program : {"weasyprint", "wkhtmltopdf", "chromium"}) {
    const std::optional<bool> well = run(words_for(program, page, pdf));
    if (!well) continue;
    std::ifstream in(pdf, std::ios::binary);
    const std::string bytes((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
    if (*well && bytes.rfind("%PDF-", 0) == 0) {
      write_page(path, bytes);
      return;
    }
    tried += (tried.empty() ? "" : ", ") + std::string(program);
  }
  if (!tried.empty()) {
    refuse(path, "no-pdf", "no PDF came from " + tried, "one whole PDF",
           "Write the page with --html, and print it from a browser.");
  }
  refuse(path, "no-pdf-program", "no program here prints HTML to PDF", "weasyprint, wkhtmltopdf or chromium",
         "Install one (on Debian: apt install weasyprint), or write the page with --html and print it from a "
         "browser.");
}

}  // namespace weatherstruck::app
