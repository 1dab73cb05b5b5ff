# Writes OUTPUT, a C++ source that holds every FOLDER/NNNN_name.sql in order.
#   cmake -DFOLDER=migrations -DOUTPUT=x.cpp -P embed_migrations.cmake
file(GLOB steps "${FOLDER}/*.sql")
list(SORT steps)
set(next 1)
set(table "")
foreach(step IN LISTS steps)
  get_filename_component(name "${step}" NAME)
  if(NOT name MATCHES "^([0-9][0-9][0-9][0-9])_([a-z0-9_]+)\\.sql$")
    message(FATAL_ERROR "migrations/${name}: a step is called NNNN_name.sql, in lower case")
  endif()
  set(title "${CMAKE_MATCH_2}")
  string(REGEX REPLACE "^0+" "" number "${CMAKE_MATCH_1}")
  if(NOT number STREQUAL next)
    message(FATAL_ERROR "migrations/${name}: the next step must bear number ${next}; numbers leave no gap")
  endif()
  file(READ "${step}" sql)
  if(sql MATCHES "\\)sql\"")
    message(FATAL_ERROR "migrations/${name} holds )sql\", the mark that ends it in the source")
  endif()
  string(LENGTH "${sql}" length)
  if(length GREATER 60000)
    message(FATAL_ERROR "migrations/${name}: ${length} bytes; compilers promise 65536 for a literal. Part it in two steps")
  endif()
  string(APPEND table "    {${number}, \"${title}\", R\"sql(${sql})sql\"},\n")
  math(EXPR next "${next} + 1")
endforeach()
math(EXPR count "${next} - 1")
if(count EQUAL 0)
  message(FATAL_ERROR "no NNNN_name.sql in ${FOLDER}")
endif()

file(WRITE "${OUTPUT}" "// Made from migrations/*.sql by cmake/embed_migrations.cmake.
#include <array>

#include \"weatherstruck/record/migrate.h\"

namespace weatherstruck::record {

std::span<const Migration> embedded_migrations() {
  static constexpr std::array<Migration, ${count}> table{{
${table}  }};
  return table;
}

}  // namespace weatherstruck::record
")
