# Reads cmake/floors.txt, the one list of floors, and makes a target of each.
if(WEATHERSTRUCK_PURE_ONLY)
  add_compile_definitions(FMT_HEADER_ONLY)
  find_path(fmt_headers fmt/core.h REQUIRED)
  add_library(weatherstruck_fmt INTERFACE)
else()
  find_package(fmt 9.1 CONFIG REQUIRED)
  find_package(date 3 CONFIG REQUIRED)
  find_package(nlohmann_json 3.11 CONFIG REQUIRED)
  find_package(CLI11 2.1 CONFIG REQUIRED)
  find_package(CURL 7.88 REQUIRED COMPONENTS HTTPS)
  find_package(pugixml 1.13 CONFIG REQUIRED)
  find_package(SQLite3 3.40 REQUIRED)  # STRICT tables, VACUUM INTO
  find_package(ZLIB 1.2.13 REQUIRED)   # gzip
  find_path(minizip_headers minizip/unzip.h REQUIRED)
  # Both become part of the program where Debian has them so: what a command does not use it need not load.
  find_library(minizip_library NAMES libminizip.a minizip REQUIRED)  # zip
  find_path(pugixml_headers pugixml.hpp REQUIRED)
  find_library(pugixml_library NAMES libpugixml.a pugixml REQUIRED)  # XML
  add_library(weatherstruck_fmt INTERFACE)
  target_link_libraries(weatherstruck_fmt INTERFACE fmt::fmt)
endif()

file(STRINGS "${PROJECT_SOURCE_DIR}/cmake/floors.txt" floor_lines REGEX "^[a-z]")
set_property(DIRECTORY APPEND PROPERTY CMAKE_CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/cmake/floors.txt")
foreach(line IN LISTS floor_lines)
  string(REGEX MATCH "^([a-z]+)( pure)? :(.*)$" matched "${line}")
  set(floor "${CMAKE_MATCH_1}")
  set(pure "${CMAKE_MATCH_2}")
  separate_arguments(uses UNIX_COMMAND "${CMAKE_MATCH_3}")
  if(WEATHERSTRUCK_PURE_ONLY AND NOT pure)
    continue()
  endif()
  set(links weatherstruck_fmt)
  if(floor STREQUAL "files")
    list(APPEND links nlohmann_json::nlohmann_json date::date date::date-tz pugixml::pugixml)
  elseif(floor STREQUAL "record")
    list(APPEND links SQLite::SQLite3)
  elseif(floor STREQUAL "feed")
    # libcurl is loaded when it is wanted: src/feed/curl_library.h
    list(APPEND links ${CMAKE_DL_LIBS} ${minizip_library} ${pugixml_library} ZLIB::ZLIB)
  elseif(floor STREQUAL "app")
    list(APPEND links CLI11::CLI11)
  endif()
  weatherstruck_floor(${floor} USES ${uses} LINKS ${links})
endforeach()

# The steps of the record's schema travel inside the program: migrations/NNNN_name.sql, made into one source.
if(TARGET ws_record)
  file(GLOB migrations CONFIGURE_DEPENDS "${PROJECT_SOURCE_DIR}/migrations/*.sql")
  set(embedded "${PROJECT_BINARY_DIR}/generated/embedded_migrations.cpp")
  add_custom_command(OUTPUT "${embedded}"
    COMMAND ${CMAKE_COMMAND} "-DFOLDER=${PROJECT_SOURCE_DIR}/migrations" "-DOUTPUT=${embedded}"
      -P "${PROJECT_SOURCE_DIR}/cmake/embed_migrations.cmake"
    DEPENDS ${migrations} "${PROJECT_SOURCE_DIR}/cmake/embed_migrations.cmake"
    COMMENT "Embedding the steps of the record's schema" VERBATIM)
  target_sources(ws_record PRIVATE "${embedded}")
endif()

if(NOT WEATHERSTRUCK_PURE_ONLY AND EXISTS "${PROJECT_SOURCE_DIR}/src/app/main.cpp")
  add_executable(weatherstruck src/app/main.cpp)
  target_link_libraries(weatherstruck PRIVATE ws_app weatherstruck_watched)
  target_compile_definitions(weatherstruck PRIVATE WEATHERSTRUCK_VERSION="${PROJECT_VERSION}")
  set_target_properties(weatherstruck PROPERTIES RUNTIME_OUTPUT_DIRECTORY "${PROJECT_BINARY_DIR}")
endif()
