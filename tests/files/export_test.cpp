#include "weatherstruck/files/export.h"

#include <gtest/gtest.h>

#include <string>

namespace weatherstruck::files {
namespace {

TEST(Export, ADocumentBeginsWithItsSchemaAndVersion) {
  auto document = export_document("plan");
  document["tasks"] = 3;
  EXPECT_EQ(export_text(document),
            "{\n  \"schema\": \"weatherstruck/plan\",\n  \"version\": 1,\n  \"tasks\": 3\n}\n");
}

TEST(Export, AFaultIsCodePointerFoundExpectedHint) {
  const base::Faults faults = {
      {"out-of-range", "/parts/0/width", "450 m", "0.2 to 1.5 m", "Check the number."},
      {"bad-word", "--now", "\"soon\"", "a time", "Write a time."}};
  EXPECT_EQ(faults_to_json(faults, {{"", 1}, {"/parts/0", 7}}).dump(),
            "[{\"code\":\"out-of-range\",\"pointer\":\"/parts/0/width\",\"found\":\"450 "
            "m\",\"expected\":\"0.2 to 1.5 m\","
            "\"hint\":\"Check the number.\",\"line\":7},"
            "{\"code\":\"bad-word\",\"pointer\":\"--now\",\"found\":\"\\\"soon\\\"\",\"expected\":\"a "
            "time\",\"hint\":\"Write a time.\"}]");
  EXPECT_EQ(faults_to_json({}).dump(), "[]");
}

TEST(Export, BadUtf8IsReplacedAndNeverThrown) {
  auto document = export_document("plan");
  document["name"] = "a\xFF";
  std::string text;
  EXPECT_NO_THROW(text = export_text(document));
  EXPECT_NE(text.find("a\xEF\xBF\xBD"), std::string::npos);
}

}  // namespace
}  // namespace weatherstruck::files
