#include "weatherstruck/app/pdf_file.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "app/run_binary.h"
#include "record/scratch.h"
#include "weatherstruck/base/fault.h"

namespace weatherstruck::app {
namespace {

using testing::HasSubstr;

/// A PATH of one folder for as long as it lives, and stand-ins for the programs that print.
class Programs {
 public:
  Programs() : before_(std::getenv("PATH")) { setenv("PATH", scratch_.folder().c_str(), 1); }
  Programs(const Programs&) = delete;
  Programs& operator=(const Programs&) = delete;
  ~Programs() { setenv("PATH", before_.c_str(), 1); }

  void add(const std::string& name, const std::string& script) const {
    const auto path = scratch_.folder() / name;
    std::ofstream(path) << "#!/bin/sh\n" << script << "\n";
    std::filesystem::permissions(path, std::filesystem::perms::owner_all);
  }
  [[nodiscard]] std::string target() const { return (scratch_.folder() / "bill.pdf").string(); }
  [[nodiscard]] std::string refusal() const {
    try {
      write_pdf(target(), "<!DOCTYPE html><title>A bill</title>");
    } catch (const base::InputError& error) {
      EXPECT_FALSE(std::filesystem::exists(target())) << "nothing is left half written";
      return error.faults()[0].code + ": " + error.faults()[0].found + ". " + error.faults()[0].remedy;
    }
    return "none";
  }

 private:
  record::Scratch scratch_;
  std::string before_;
};

TEST(PdfFile, SaysWhatToInstallWhereNothingPrints) {
  EXPECT_THAT(Programs().refusal(), HasSubstr("no-pdf-program: "));
  EXPECT_THAT(Programs().refusal(), HasSubstr("apt install"));
}

TEST(PdfFile, IsWhatTheFirstProgramThatIsThereMade) {
  const Programs programs;
  programs.add("wkhtmltopdf", R"(read line <"$3"; printf '%%PDF-1.4 %s' "$line" >"$4")");
  EXPECT_EQ(programs.refusal(), "none");
  EXPECT_EQ(text_of(programs.target()), "%PDF-1.4 <!DOCTYPE html><title>A bill</title>");
}

TEST(PdfFile, TheNextIsTriedWhereOneFails) {
  const Programs programs;
  programs.add("weasyprint", "exit 3");
  programs.add(
      "chromium",
      R"(for word; do case $word in --print-to-pdf=*) printf '%%PDF-1.7' >"${word#*=}";; esac; done)");
  EXPECT_EQ(programs.refusal(), "none");
  EXPECT_EQ(text_of(programs.target()), "%PDF-1.7");
}

TEST(PdfFile, WhatIsNoPdfIsNotTaken) {
  const Programs programs;
  programs.add("weasyprint", R"(printf 'Sorry' >"$2")");
  EXPECT_THAT(programs.refusal(), HasSubstr("no-pdf: no PDF came from weasyprint"));
}

}  // namespace
}  // namespace weatherstruck::app
