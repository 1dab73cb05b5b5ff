#pragma once
// libcurl, loaded when it is first wanted: with all that it stands on it takes longer to load than most
// commands take to run, and most commands ask nobody. For curl_client only.
#include <curl/curl.h>

namespace weatherstruck::feed {

// The header wraps some of these in macros for C.
#undef curl_easy_setopt
#undef curl_easy_getinfo

/// What is used of it, each as its header declares it.
struct CurlLibrary {
  decltype(&::curl_easy_init) easy_init;
  decltype(&::curl_easy_cleanup) easy_cleanup;
  decltype(&::curl_easy_reset) easy_reset;
  decltype(&::curl_easy_setopt) easy_setopt;
  decltype(&::curl_easy_perform) easy_perform;
  decltype(&::curl_easy_getinfo) easy_getinfo;
  decltype(&::curl_easy_strerror) easy_strerror;
  decltype(&::curl_slist_append) slist_append;
  decltype(&::curl_slist_free_all) slist_free_all;
};

/// Loaded and started once in a process, before any thread uses it; never unloaded.
/// @throws std::runtime_error where it is not there, lacks a function, does not start, or knows no https
[[nodiscard]] const CurlLibrary& curl_library();

}  // namespace weatherstruck::feed
