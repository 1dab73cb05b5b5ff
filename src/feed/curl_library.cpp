#include "curl_library.h"

#include <stdexcept>
#include <string>

#include <dlfcn.h>

namespace weatherstruck::feed {
namespace {

// The name under which Debian's libcurl4 has lain since 2018; its interface has only grown since.
constexpr const char* file_name = "libcurl.so.4";

class Loaded {
 public:
  Loaded() : handle_(dlopen(file_name, RTLD_NOW | RTLD_LOCAL)) {
    if (handle_ == nullptr)
      throw std::runtime_error(std::string("no forecast can be fetched: ") + why() +
                               "; install the package libcurl4, or go on with --offline or --forecast FILE");
  }

  template <class Function>
  void find(Function& function, const char* name) const {
    void* found = dlsym(handle_, name);
    if (found == nullptr) throw std::runtime_error("this libcurl is too old: " + why());
    // As POSIX has it done: no other cast makes a function of what dlsym finds.
    function = reinterpret_cast<Function>(found);  // NOLINT(cppcoreguidelines-pro-type-reinterpret-cast)
  }

 private:
  static std::string why() {
    const char* said = dlerror();
    return said == nullptr ? std::string(file_name) : std::string(said);
  }

  void* handle_;
};

CurlLibrary load() {
  const Loaded loaded;
  decltype(&::curl_global_init) global_init = nullptr;
  decltype(&::curl_version_info) version_info = nullptr;
  loaded.find(global_init, "curl_global_init");
  loaded.find(version_info, "curl_version_info");
  CurlLibrary curl{};
  loaded.find(curl.easy_init, "curl_easy_init");
  loaded.find(curl.easy_cleanup, "curl_easy_cleanup");
  loaded.find(curl.easy_reset, "curl_easy_reset");
  loaded.find(curl.easy_setopt, "curl_easy_setopt");
  loaded.find(curl.easy_perform, "curl_easy_perform");
  loaded.find(curl.easy_getinfo, "curl_easy_getinfo");
  loaded.find(curl.easy_strerror, "curl_easy_strerror");
  loaded.find(curl.slist_append, "curl_slist_append");
  loaded.find(curl.slist_free_all, "curl_slist_free_all");
  if (global_init(CURL_GLOBAL_DEFAULT) != CURLE_OK) throw std::runtime_error("libcurl cannot start");
  if ((version_info(CURLVERSION_NOW)->features & CURL_VERSION_SSL) == 0)
    throw std::runtime_error("this libcurl was built without https");
  return curl;
}

}  // namespace

const CurlLibrary& curl_library() {
  static const CurlLibrary library = load();
  return library;
}

}  // namespace weatherstruck::feed
