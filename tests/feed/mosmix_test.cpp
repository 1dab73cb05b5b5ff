#include "weatherstruck/feed/mosmix.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <zlib.h>

#include "feed_support.h"
#include "loopback.h"
#include "packing.h"

namespace weatherstruck::feed {
namespace {

using std::chrono::hours;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::StartsWith;

std::string element(const std::string& name, const std::string& values) {
  return "<dwd:Forecast dwd:elementName=\"" + name + "\"><dwd:value> " + values +
         "</dwd:value></dwd:Forecast>\n";
}

std::string station(const std::string& place, const std::string& elements, const std::string& id = "10315") {
  return "<kml:Placemark><kml:name>" + id +
         "</kml:name><kml:description>M\xdcNSTER</kml:description>"
         "<kml:ExtendedData>" +
         elements + "</kml:ExtendedData><kml:Point><kml:coordinates>" + place +
         "</kml:coordinates></kml:Point></kml:Placemark>\n";
}

// Built as the service builds it, in its encoding.
std::string kml(const std::string& stations, int steps = 4) {
  std::string times;
  for (int i = 0; i < steps; ++i)
    times += "<dwd:TimeStep>2026-02-09T1" + std::to_string(i) + ":00:00.000Z</dwd:TimeStep>\n";
  return "<?xml version=\"1.0\" encoding=\"ISO-8859-1\" standalone=\"yes\"?>\n"
         "<kml:kml xmlns:dwd=\"https://opendata.dwd.de/weather/lib/pointforecast_dwd_extension_V1_0.xsd\" "
         "xmlns:kml=\"http://www.opengis.net/kml/2.2\"><kml:Document><kml:ExtendedData>"
         "<dwd:ProductDefinition><dwd:IssueTime>2026-02-09T09:00:00.000Z</dwd:IssueTime>"
         "<dwd:ForecastTimeSteps>" +
         times +
         "</dwd:ForecastTimeSteps><dwd:FormatCfg><dwd:DefaultUndefSign>-</dwd:DefaultUndefSign>"
         "</dwd:FormatCfg></dwd:ProductDefinition></kml:ExtendedData>" +
         stations + "</kml:Document></kml:kml>\n";
}

std::string one(const std::string& elements, int steps = 4) {
  return kml(station("7.63,51.97,60.0", elements), steps);
}

const std::string basics = element("TTT", "277.15 278.15 278.65 -") + element("FF", "4.12 5.14 6.00 7.00");

sky::Series read(const std::string& bytes, const ReadOptions& options = {}) {
  return read_forecast("test.kmz", bytes, options);
}

const sky::Hour& hour(const sky::Series& series, const std::string& iso) {
  const sky::Hour* found = series.at(instant(iso));
  if (found == nullptr) throw std::out_of_range(iso);
  return *found;
}

TEST(Mosmix, ReadsPlaceIssueAndWhatTheLicenceAsksFor) {
  const sky::Series series = read(one(basics));
  EXPECT_EQ(series.source, "DWD MOSMIX 10315 (M??NSTER)");  // ISO-8859-1 read, shown in plain letters
  EXPECT_THAT(series.attribution, StartsWith("Quelle: Deutscher Wetterdienst"));
  EXPECT_THAT(series.attribution, HasSubstr("modified"));  // changed data must say so
  EXPECT_EQ(*series.issued, instant("2026-02-09T09:00:00Z"));
  EXPECT_DOUBLE_EQ(series.latitude, 51.97);
  EXPECT_DOUBLE_EQ(series.longitude, 7.63);
}

TEST(Mosmix, TemperaturesAreInKelvinAndValidAtTheirStep) {
  const sky::Series series = read(one(basics + element("Td", "276.15 276.15 - -")));
  EXPECT_DOUBLE_EQ(hour(series, "2026-02-09T10:00:00Z").temperature->value.value(), 4.0);
  EXPECT_DOUBLE_EQ(hour(series, "2026-02-09T10:00:00Z").dew_point->value.value(), 3.0);
  EXPECT_DOUBLE_EQ(hour(series, "2026-02-09T11:00:00Z").temperature->value.value(), 5.0);
}

// WMO-No. 8, annex 4.B, by hand: 100 exp(17.62 x 3 / 246.12 - 17.62 x 4 / 247.12) = 93.2 %.
TEST(Mosmix, HumidityFollowsFromTheDewPointAndIsMarked) {
  const sky::Series series = read(one(basics + element("Td", "276.15 276.15 - -")));
  EXPECT_DOUBLE_EQ(hour(series, "2026-02-09T10:00:00Z").humidity->value.value(), 0.93);
  EXPECT_EQ(hour(series, "2026-02-09T10:00:00Z").humidity->origin, sky::Origin::derived);
}

TEST(Mosmix, ADashIsMissingAndNotZero) {
  const sky::Series series = read(one(basics + element("RR1c", "- 0.20 - 0.00")));
  EXPECT_FALSE(hour(series, "2026-02-09T13:00:00Z").temperature);
  EXPECT_FALSE(hour(series, "2026-02-09T11:00:00Z").rain);
  EXPECT_EQ(hour(series, "2026-02-09T12:00:00Z").rain->value.value(), 0.0);
}

TEST(Mosmix, RainGustsAndChancesAreOfTheHourBeforeTheStep) {
  const sky::Series series =
      read(one(basics + element("RR1c", "1.20 0.60 0.00 0.00") + element("FX1", "9.26 8.75 8.23 8.00") +
               element("R101", "75.00 74.00 1.00 -") + element("wwP", "80.00 79.00 2.00 7.00")));
  EXPECT_EQ(series.begin_time(), instant("2026-02-09T09:00:00Z"));
  const sky::Hour& nine = hour(series, "2026-02-09T09:00:00Z");
  EXPECT_DOUBLE_EQ(nine.rain->value.value(), 1.2);
  EXPECT_DOUBLE_EQ(nine.gust->value.value(), 9.3);
  EXPECT_DOUBLE_EQ(nine.rain_chance->value.value(), 0.75);
  EXPECT_FALSE(nine.temperature);
  // Where the chance of more than 0.1 mm is missing, that of anything at all stands in.
  EXPECT_DOUBLE_EQ(hour(series, "2026-02-09T12:00:00Z").rain_chance->value.value(), 0.07);
}

TEST(Mosmix, WhereTheHourlyGustIsMissingTheThreeHourlyBoundsIt) {
  const sky::Series series =
      read(one(basics + element("FX1", "9.00 - - -") + element("FX3", "9.50 12.00 11.00 -")));
  EXPECT_EQ(hour(series, "2026-02-09T09:00:00Z").gust->origin, sky::Origin::given);
  // 10:00-11:00 lies in the three hours to 11:00 (12 m/s) and to 12:00 (11 m/s).
  EXPECT_DOUBLE_EQ(hour(series, "2026-02-09T10:00:00Z").gust->value.value(), 11.0);
  EXPECT_EQ(hour(series, "2026-02-09T10:00:00Z").gust->origin, sky::Origin::derived);
  // Nothing at all covers 12:00-13:00: from the mean wind.
  EXPECT_DOUBLE_EQ(hour(series, "2026-02-09T12:00:00Z").gust->value.value(), 14.0);
}

TEST(Mosmix, WhereHourlyRainEndsTheLongerTotalsAreSplitWithoutChangingThem) {
  const sky::Series series =
      read(one(element("TTT", "277.15 277.15 277.15 277.15 277.15 277.15 277.15 277.15") +
                   element("FF", "4 4 4 4 4 4 4 4") + element("RR1c", "0.50 - - - - - - 0.20") +
                   element("RR3c", "0.90 - - 1.00 - - 0.00 -"),
               8));
  EXPECT_THAT(rain_of(series), ElementsAre(0.5, 0.4, 0.3, 0.3, 0.0, 0.0, 0.0, 0.2, -1));
  EXPECT_EQ(hour(series, "2026-02-09T10:00:00Z").rain->origin, sky::Origin::split);
  EXPECT_TRUE(has_note(series, "split"));
}

TEST(Mosmix, OfSeveralStationsTheNearestIsTaken) {
  ReadOptions options;
  options.latitude = 52.1;
  options.longitude = 5.2;
  const std::string other = element("TTT", "288.15 - - -");
  const sky::Series series =
      read(kml(station("7.63,51.97,60.0", basics) + station("5.18,52.10,2.0", other, "06260") +
               station("13.40,52.47,48.0", basics, "10384")),
           options);
  EXPECT_THAT(series.source, HasSubstr("06260"));
  EXPECT_DOUBLE_EQ(series.hours[0].temperature->value.value(), 15.0);
  EXPECT_TRUE(has_note(series, "nearest-station"));
}

TEST(Mosmix, EveryFaultIsToldAtOnceWithItsPlace) {
  const auto faults = faults_of(one(element("TTT", "277.15 353.15 x 277.15") +
                                    element("RR1c", "-0.10 0 0 0") + element("FF", "4.0 4.0")));
  ASSERT_THAT(codes(faults),
              ElementsAre("impossible-value", "not-a-number", "impossible-value", "wrong-field-count"));
  EXPECT_EQ(faults[0].place, "TTT, step 2");
  EXPECT_THAT(faults[0].found, HasSubstr("80 C"));
}

TEST(Mosmix, StepsMustRiseInTime) {
  std::string text = one(basics);
  text.replace(text.find("T12:00"), 6, "T10:30");
  EXPECT_THAT(codes(faults_of(text)), ElementsAre("time-backwards"));
}

TEST(Mosmix, AnElementGivenTwiceIsAFault) {
  EXPECT_THAT(codes(faults_of(one(basics + element("TTT", "1 2 3 4")))), ElementsAre("duplicate-element"));
}

TEST(Mosmix, BrokenXmlAndAStationWithoutAPlaceAreTold) {
  std::string text = one(basics);
  EXPECT_THAT(codes(faults_of(text.substr(0, text.size() - 80))), ElementsAre("bad-xml"));
  text = kml(station("somewhere", basics));
  EXPECT_THAT(codes(faults_of(text)), ElementsAre("no-place"));
}

// ------------------------------------------------------------------------------------------ the archive

TEST(MosmixArchive, IsReadWhateverLiesBesideTheForecast) {
  const std::string text = one(basics);
  const sky::Series plain = read(text);
  for (const bool deflated : {true, false}) {
    const std::string kmz = zip_of({{"read.me", "nothing"}, {"MOSMIX_L_2026020909.KML", text, deflated}});
    EXPECT_EQ(recognise(kmz), ForecastKind::mosmix);
    EXPECT_EQ(read(kmz).hours.size(), plain.hours.size());
  }
  EXPECT_EQ(read(gzip_of(text)).hours.size(), plain.hours.size());
}

std::string told(const std::string& bytes) {
  const auto faults = faults_of(bytes);
  return faults.size() == 1 && faults[0].code == "bad-archive" ? faults[0].found : "read";
}

TEST(MosmixArchive, DamageIsTold) {
  const std::string text = one(basics);
  const std::string good = zip_of({{"a.kml", text}});
  EXPECT_EQ(told(good.substr(0, good.size() / 2)), "a zip archive that breaks off or is damaged");
  EXPECT_EQ(told(zip_of({{"a.kml", text, true, 0, true}})), "a zip archive whose checksum does not hold");
  EXPECT_EQ(told(zip_of({{"a.kml", text, true, 1}})), "a zip archive locked with a password");
  EXPECT_EQ(told(zip_of({{"a.txt", text}})), "a zip archive without a file that ends in .kml");
  EXPECT_EQ(told(zip_of({{"a.kml", ""}})), "a zip archive with an empty file in it");
  std::string spoilt = good;
  for (std::size_t i = 60; i < 90; ++i)
    spoilt[i] = '\x55';
  EXPECT_NE(told(spoilt), "read");
  EXPECT_THAT(codes(faults_of(zip_of({{"a.kml", "<kml/>"}}))), ElementsAre("not-a-forecast"));
}

TEST(MosmixArchive, ABombIsCutAtTheCap) {
  const std::string bomb = zip_of({{"a.kml", std::string(std::size_t{17} << 20, ' ')}});
  EXPECT_LT(bomb.size(), std::size_t{1} << 20);
  EXPECT_EQ(told(bomb), "more than 16 MiB once unpacked");
  EXPECT_EQ(told(gzip_of_zeros(std::size_t{17} << 20)), "more than 16 MiB once unpacked");
}

TEST(Gzip, OfSeveralPartsIsOneFileAndDamageIsTold) {
  const std::string text = one(basics);
  const std::string half = text.substr(0, 700);
  const std::string both = gzip_of(half) + gzip_of(text.substr(700));
  EXPECT_EQ(read(both).hours.size(), read(text).hours.size());
  EXPECT_EQ(read(both + std::string(512, '\0')).hours.size(), read(text).hours.size());
  const std::string whole = gzip_of(text);
  EXPECT_EQ(told(whole.substr(0, whole.size() - 20)), "a gzip file that breaks off");
  EXPECT_EQ(told(whole + "more"), "a gzip file with something else behind it");
  std::string spoilt = whole;
  spoilt[whole.size() - 6] = static_cast<char>(spoilt[whole.size() - 6] ^ 1);  // of the checksum
  EXPECT_EQ(told(spoilt), "a gzip file that is damaged");
  EXPECT_EQ(told(gzip_of(whole)), "a gzip file in a gzip file");
}

// --------------------------------------------------------------------------------------- a real forecast

TEST(MosmixOfMunster, ReadsTenDaysHourByHour) {
  const auto path = shared_forecasts() / "dwd" / "mosmix_l_munster_20230412.kmz";
  if (!std::filesystem::exists(path))
    GTEST_SKIP() << "no " << path << "; set WEATHERSTRUCK_SHARED to the data folder";
  const sky::Series series = read(bytes_of(path));
  EXPECT_EQ(series.source, "DWD MOSMIX P0036 (MUENSTER ZENTRUM)");
  EXPECT_EQ(*series.issued, instant("2023-04-12T09:00:00Z"));
  EXPECT_EQ(series.hours.size(), 248U);  // 247 steps, and the hour before the first
  // Counted with another unpacker and another reader: RR1c adds up to 7.7 mm, 247 values.
  EXPECT_EQ(tenths(series), 77);
  std::size_t with_rain = 0;
  for (const sky::Hour& h : series.hours)
    with_rain += h.rain ? 1U : 0U;
  EXPECT_EQ(with_rain, 247U);
  // TTT 282.75 K, FF 5.14, FX1 9.26, R101 75 at the first step.
  EXPECT_DOUBLE_EQ(series.hours[1].temperature->value.value(), 9.6);
  EXPECT_DOUBLE_EQ(series.hours[1].wind->value.value(), 5.1);
  EXPECT_DOUBLE_EQ(series.hours[0].gust->value.value(), 9.3);
  EXPECT_DOUBLE_EQ(series.hours[0].rain_chance->value.value(), 0.75);
}

}  // namespace
}  // namespace weatherstruck::feed
