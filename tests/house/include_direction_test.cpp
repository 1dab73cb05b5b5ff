// Every include runs down the floors of cmake/floors.txt, and every library stays on the floor that knows it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iterator>
#include <stdexcept>

#include "house/include_rules.h"
#include "house/source_tree.h"

namespace weatherstruck::house {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::StartsWith;

std::vector<Floor> real_floors() {
  std::ifstream in(std::string(WEATHERSTRUCK_SOURCE_DIR) + "/cmake/floors.txt");
  return parse_floors(std::string((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>()));
}

// The files a compiler would see; a folder may hold notes or tables beside them.
std::vector<SourceFile> real_sources() {
  std::vector<SourceFile> sources = read_tree("include/weatherstruck");
  for (SourceFile& file : read_tree("src"))
    sources.push_back(std::move(file));
  sources.erase(std::remove_if(sources.begin(), sources.end(),
                               [](const SourceFile& file) {
                                 const std::string end = file.path.substr(file.path.rfind('.') + 1);
                                 return end != "h" && end != "cpp" && end != "inc";
                               }),
                sources.end());
  return sources;
}

TEST(IncludeDirection, EveryIncludeRunsDown) {
  const std::vector<SourceFile> sources = real_sources();
  ASSERT_GE(sources.size(), 10U) << "the tree was not found";
  for (const std::string& breach : include_breaches(real_floors(), sources))
    ADD_FAILURE() << breach;
}

TEST(IncludeDirection, FloorListStandsOnBase) {
  const std::vector<Floor> floors = real_floors();
  ASSERT_FALSE(floors.empty());
  EXPECT_EQ(floors.front().name, "base");
  EXPECT_THAT(floors.front().uses, IsEmpty());
  EXPECT_TRUE(floors.front().pure);
  const auto engine =
      std::find_if(floors.begin(), floors.end(), [](const Floor& floor) { return floor.name == "engine"; });
  ASSERT_NE(engine, floors.end());
  EXPECT_THAT(engine->uses, ElementsAre("base")) << "the engine has never heard of rain";
  bool impure = false;
  for (const Floor& floor : floors) {
    EXPECT_FALSE(floor.pure && impure) << floor.name << " is pure above a floor that is not";
    impure = impure || !floor.pure;
  }
}

TEST(FloorList, RefusesFloorsThatUseWhatIsNotBelow) {
  EXPECT_THROW(parse_floors("base pure :\nsky : app\napp : sky\n"), std::runtime_error);
  EXPECT_THROW(parse_floors("base pure :\nbase :\n"), std::runtime_error);
  EXPECT_THROW(parse_floors("base pure\n"), std::runtime_error);
}

// From here on: bad includes planted in memory must be found, good ones must not.
const char* const small_house =
    "# a comment\n"
    "base pure :\n"
    "engine pure : base\n"
    "sky pure : base\n"
    "files : base sky\n"
    "feed : base sky files\n"
    "app : base engine sky files feed\n";

std::vector<std::string> breaches_of(const std::string& path, const std::string& text) {
  return include_breaches(parse_floors(small_house), {{path, text}});
}

TEST(PlantedInclude, RunningUpIsFoundWithFileAndLine) {
  EXPECT_THAT(
      breaches_of("src/sky/sun.cpp",
                  "#include <vector>\n\n#include \"weatherstruck/files/job.h\"\nint x = 0;\n"),
      ElementsAre("src/sky/sun.cpp:3: includes weatherstruck/files/job.h; floor sky may not use floor "
                  "files"));
}

TEST(PlantedInclude, RunningSidewaysIsFoundInHeadersToo) {
  EXPECT_THAT(
      breaches_of("include/weatherstruck/engine/clock.h", "  #  include <weatherstruck/sky/series.h>\n"),
      ElementsAre(AllOf(StartsWith("include/weatherstruck/engine/clock.h:1: "),
                        HasSubstr("floor engine may not use floor sky"))));
}

TEST(PlantedInclude, UnknownFloorRelativePathAndMacroAreFound) {
  EXPECT_THAT(breaches_of("src/sky/sun.cpp", "#include \"weatherstruck/cellar/wine.h\"\n"),
              ElementsAre(HasSubstr("floor cellar is not in")));
  EXPECT_THAT(breaches_of("src/sky/sun.cpp", "#include \"../engine/clock.h\"\n"),
              ElementsAre(HasSubstr("write it as")));
  EXPECT_THAT(breaches_of("src/sky/sun.cpp", "#include HEADER\n"), ElementsAre(HasSubstr("names no file")));
  EXPECT_THAT(breaches_of("src/cellar/wine.cpp", ""), ElementsAre(HasSubstr("lies on no floor")));
}

TEST(PlantedInclude, LibraryOnTheWrongFloorIsFound) {
  for (const char* header : {"nlohmann/json.hpp", "date/tz.h", "CLI/CLI.hpp", "curl/curl.h", "sqlite3.h",
                             "minizip/unzip.h", "zlib.h", "pugixml.hpp"}) {
    const std::string line = std::string("#include <") + header + ">\n";
    EXPECT_THAT(breaches_of("src/sky/sun.cpp", line), ElementsAre(HasSubstr(header))) << header;
  }
  EXPECT_THAT(breaches_of("src/feed/met.cpp", "#include <date/date.h>\n"), ElementsAre(HasSubstr("library")));
  EXPECT_THAT(breaches_of("src/files/job.cpp", "#include <CLI/CLI.hpp>\n"),
              ElementsAre(HasSubstr("library")));
  EXPECT_THAT(breaches_of("src/app/main.cpp", "#include <nlohmann/json.hpp>\n"),
              ElementsAre(HasSubstr("library")));
}

TEST(PlantedInclude, InputAndOutputOnAPureFloorIsFound) {
  for (const char* header : {"thread", "mutex", "fstream", "filesystem", "iostream", "cstdio", "stdio.h",
                             "sys/socket.h", "netinet/in.h", "unistd.h", "fmt/os.h", "random"}) {
    const std::string line = std::string("#include <") + header + ">\n";
    EXPECT_THAT(breaches_of("src/sky/sun.cpp", line), ElementsAre(HasSubstr("is pure"))) << header;
    EXPECT_THAT(breaches_of("src/files/job.cpp", line), IsEmpty()) << header;
  }
}

TEST(PlantedInclude, ClockAndPrintingOnAPureFloorAreFound) {
  const std::string clock = "auto t = std::chrono::system_clock::now();\n";
  EXPECT_THAT(breaches_of("src/sky/sun.cpp", clock),
              ElementsAre(HasSubstr("src/sky/sun.cpp:1: names ::now(")));
  EXPECT_THAT(breaches_of("src/sky/sun.cpp", "  fmt::print(\"x\");\n"),
              ElementsAre(HasSubstr("fmt::print(")));
  EXPECT_THAT(breaches_of("src/sky/sun.cpp", "// never calls std::chrono::system_clock::now()\n"), IsEmpty());
  EXPECT_THAT(breaches_of("src/app/main.cpp", clock), IsEmpty());
}

TEST(PlantedInclude, GoodIncludesAreLeftAlone) {
  EXPECT_THAT(breaches_of("src/sky/sun.cpp",
                          "#include \"weatherstruck/sky/sun.h\"\n#include \"weatherstruck/base/zone.h\"\n"
                          "#include \"tables.h\"\n#include <fmt/format.h>\n#include <chrono>\n"
                          "// #include \"weatherstruck/app/command.h\"\n"),
              IsEmpty());
  EXPECT_THAT(breaches_of("src/files/job.cpp", "#include <nlohmann/json.hpp>\n#include <date/tz.h>\n"),
              IsEmpty());
  EXPECT_THAT(breaches_of("src/feed/met.cpp", "#include <nlohmann/json.hpp>\n"), IsEmpty());
  EXPECT_THAT(
      breaches_of("src/app/main.cpp", "#include <CLI/CLI.hpp>\n#include \"weatherstruck/engine/clock.h\"\n"),
      IsEmpty());
}

}  // namespace
}  // namespace weatherstruck::house
