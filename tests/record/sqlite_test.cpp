#include "weatherstruck/record/sqlite.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "record/scratch.h"

namespace weatherstruck::record {
namespace {

using testing::HasSubstr;
using Kind = RecordError::Kind;

class SqliteTest : public testing::Test {
 protected:
  Scratch scratch_;
  Connection connection_{scratch_.folder() / "x.db", Connection::Open::create, std::chrono::milliseconds(50)};
};

using ConnectionOf = SqliteTest;
using StatementOf = SqliteTest;
using TransactionOf = SqliteTest;

// Values of the pragmas: sqlite.org/pragma.html (synchronous 2 is FULL).
TEST_F(ConnectionOf, HasTheSettingsOfTheHouse) {
  connection_.use_write_ahead_log();
  EXPECT_EQ(connection_.text("PRAGMA journal_mode"), "wal");
  EXPECT_EQ(connection_.number("PRAGMA synchronous"), 2);
  EXPECT_EQ(connection_.number("PRAGMA foreign_keys"), 1);
  EXPECT_EQ(connection_.number("PRAGMA recursive_triggers"), 1);
  EXPECT_EQ(connection_.number("PRAGMA trusted_schema"), 0);
  EXPECT_EQ(connection_.number("PRAGMA busy_timeout"), 50);
}

TEST_F(ConnectionOf, OpensNothingThatIsNotThere) {
  EXPECT_EQ(kind_thrown([&] {
              const Connection none(scratch_.folder() / "y.db", Connection::Open::existing,
                                    std::chrono::milliseconds(50));
            }),
            Kind::io);
}

TEST_F(StatementOf, HandsBackWhatWasBound) {
  connection_.run("CREATE TABLE t (i INTEGER, s TEXT, b BLOB, n TEXT) STRICT");
  const std::string zero("a\0b", 3);
  {
    Statement insert = connection_.prepare("INSERT INTO t VALUES (?, ?, ?, ?)");
    insert.bind(1, std::int64_t{-9007199254740993});
    insert.bind(2, std::string_view(zero));
    insert.bind(3, Bytes{zero});
    insert.bind(4, std::optional<std::string>());
    EXPECT_FALSE(insert.step());
  }
  Statement row = connection_.prepare("SELECT i, s, b, n FROM t");
  ASSERT_TRUE(row.step());
  EXPECT_EQ(row.integer(0), -9007199254740993);
  EXPECT_EQ(row.text(1), zero);
  EXPECT_EQ(row.bytes(2), zero);
  EXPECT_TRUE(row.is_null(3));
  EXPECT_FALSE(row.optional_text(3));
  EXPECT_FALSE(row.step());
}

TEST_F(StatementOf, EmptyIsNotAbsent) {
  Statement row = connection_.prepare("SELECT ?, ?");
  row.bind(1, std::string_view());
  row.bind(2, Bytes{});
  ASSERT_TRUE(row.step());
  EXPECT_EQ(row.text(0), "");
  EXPECT_EQ(row.bytes(1), "");
}

TEST_F(StatementOf, AColumnOfAnotherKindIsDamage) {
  Statement row = connection_.prepare("SELECT 'three', NULL");
  ASSERT_TRUE(row.step());
  std::string text;
  EXPECT_EQ(kind_thrown([&] { static_cast<void>(row.integer(0)); }, &text), Kind::corrupt);
  EXPECT_THAT(text, HasSubstr("column 0"));
  EXPECT_EQ(kind_thrown([&] { static_cast<void>(row.text(1)); }), Kind::corrupt);
}

TEST_F(StatementOf, BrokenSqlSaysWhatIsBroken) {
  std::string text;
  EXPECT_EQ(kind_thrown([&] { connection_.run("SELEKT 1"); }, &text), Kind::other);
  EXPECT_THAT(text, HasSubstr("SELEKT"));
}

TEST_F(TransactionOf, IsRolledBackUnlessCommitted) {
  connection_.run("CREATE TABLE t (i INTEGER) STRICT");
  {
    const Transaction transaction(connection_);
    connection_.run("INSERT INTO t VALUES (1)");
    EXPECT_TRUE(connection_.in_transaction());
  }
  EXPECT_FALSE(connection_.in_transaction());
  {
    Transaction transaction(connection_);
    connection_.run("INSERT INTO t VALUES (2)");
    transaction.commit();
  }
  EXPECT_EQ(connection_.number("SELECT sum(i) FROM t"), 2);
}

TEST_F(TransactionOf, TheSecondOneWaitsAndThenSaysThatItIsBusy) {
  connection_.use_write_ahead_log();
  connection_.run("CREATE TABLE t (i INTEGER) STRICT");
  Connection other(connection_.path(), Connection::Open::existing, std::chrono::milliseconds(20));
  const Transaction transaction(connection_);
  std::string text;
  EXPECT_EQ(kind_thrown([&] { const Transaction second(other); }, &text), Kind::busy);
  EXPECT_THAT(text, HasSubstr("another program was writing to it for more than 0.02 s"));
  EXPECT_EQ(other.number("SELECT count(*) FROM t"), 0) << "reading goes on";
}

}  // namespace
}  // namespace weatherstruck::record
