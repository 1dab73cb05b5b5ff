#include "weatherstruck/record/folder.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include "record/scratch.h"

namespace weatherstruck::record {
namespace {

using testing::HasSubstr;

// XDG Base Directory Specification 0.8: $XDG_DATA_HOME, by default $HOME/.local/share; "all paths must be
// absolute ... consider the path invalid and ignore it".
TEST(DataFolder, IsWhereTheSpecificationPutsIt) {
  EXPECT_EQ(data_folder({{"XDG_DATA_HOME", "/srv/data"}, {"HOME", "/home/mason"}}),
            "/srv/data/weatherstruck");
  EXPECT_EQ(data_folder({{"HOME", "/home/mason"}}), "/home/mason/.local/share/weatherstruck");
  EXPECT_EQ(data_folder({{"XDG_DATA_HOME", ""}, {"HOME", "/home/mason"}}),
            "/home/mason/.local/share/weatherstruck");
  EXPECT_EQ(record_file({{"HOME", "/home/mason"}}), "/home/mason/.local/share/weatherstruck/record.db");
}

TEST(DataFolder, PassesOverRelativePaths) {
  EXPECT_EQ(data_folder({{"XDG_DATA_HOME", "data"}, {"HOME", "/home/mason"}}),
            "/home/mason/.local/share/weatherstruck");
  std::string text;
  EXPECT_EQ(kind_thrown(
                [] {
                  return data_folder({{"XDG_DATA_HOME", "./x"}, {"HOME", "mason"}});
                },
                &text),
            RecordError::Kind::other);
  EXPECT_THAT(text, HasSubstr("Set one of them"));
  EXPECT_EQ(kind_thrown([] { return data_folder({}); }), RecordError::Kind::other);
}

TEST(PrivateFolder, EveryFolderMadeIsForItsOwnerOnly) {
  const Scratch scratch;
  const mode_t before = umask(0);
  make_private_folder(scratch.folder() / "a" / "b");
  EXPECT_TRUE(make_private_file(scratch.folder() / "a" / "b" / "c"));
  umask(before);
  EXPECT_EQ(rights(scratch.folder() / "a"), 0700U);
  EXPECT_EQ(rights(scratch.folder() / "a" / "b"), 0700U);
  EXPECT_EQ(rights(scratch.folder() / "a" / "b" / "c"), 0600U);
}

TEST(PrivateFolder, WhatIsThereIsLeftAlone) {
  const Scratch scratch;
  ASSERT_EQ(mkdir((scratch.folder() / "a").c_str(), 0750), 0);
  make_private_folder(scratch.folder() / "a");
  EXPECT_EQ(rights(scratch.folder() / "a"), 0750U);
  write_bytes(scratch.folder() / "a" / "c", "kept");
  EXPECT_FALSE(make_private_file(scratch.folder() / "a" / "c"));
  EXPECT_EQ(bytes_of(scratch.folder() / "a" / "c"), "kept");
}

TEST(PrivateFolder, AFileInTheWayIsTold) {
  const Scratch scratch;
  write_bytes(scratch.folder() / "a", "a file");
  std::string text;
  EXPECT_EQ(kind_thrown([&] { make_private_folder(scratch.folder() / "a" / "b"); }, &text),
            RecordError::Kind::io);
  EXPECT_THAT(text, HasSubstr((scratch.folder() / "a").string() + ": "));
}

TEST(PrivateFolder, AFolderThatMayNotBeWrittenIsTold) {
  const Scratch scratch;
  const WithoutRoot guard(scratch.folder());
  ASSERT_EQ(chmod(scratch.folder().c_str(), 0500), 0);
  EXPECT_EQ(kind_thrown([&] { make_private_folder(scratch.folder() / "data"); }),
            RecordError::Kind::read_only);
  EXPECT_EQ(kind_thrown([&] { make_private_file(scratch.folder() / "x"); }), RecordError::Kind::read_only);
}

TEST(Network, TheFolderOfTheTestIsOfThisMachine) {
  EXPECT_FALSE(lies_on_network(std::filesystem::temp_directory_path()));
}

}  // namespace
}  // namespace weatherstruck::record
