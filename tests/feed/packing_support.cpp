#include <cstdint>
#include <stdexcept>

#include <zlib.h>

#include "packing.h"

namespace weatherstruck::feed {
namespace {

std::string deflated(const std::string& text, int window) {
  z_stream stream{};
  if (deflateInit2(&stream, 1, Z_DEFLATED, window, 9, Z_DEFAULT_STRATEGY) != Z_OK)
    throw std::runtime_error("zlib does not start");
  std::string in = text;
  std::string out(deflateBound(&stream, text.size()) + 64, '\0');
  stream.next_in = reinterpret_cast<Bytef*>(in.data());
  stream.avail_in = static_cast<uInt>(in.size());
  stream.next_out = reinterpret_cast<Bytef*>(out.data());
  stream.avail_out = static_cast<uInt>(out.size());
  if (deflate(&stream, Z_FINISH) != Z_STREAM_END) throw std::runtime_error("zlib does not end");
  out.resize(stream.total_out);
  deflateEnd(&stream);
  return out;
}

void put(std::string& out, std::uint32_t value, int bytes) {
  for (int i = 0; i < bytes; ++i)
    out += static_cast<char>((value >> (8 * i)) & 0xffU);
}

}  // namespace

std::string gzip_of(const std::string& text) {
  return deflated(text, 16 + MAX_WBITS);
}

std::string zip_of(const std::vector<ZipEntry>& entries) {
  std::string out;
  std::string directory;
  for (const ZipEntry& entry : entries) {
    const std::string packed = entry.deflated ? deflated(entry.text, -MAX_WBITS) : entry.text;
    auto sum = static_cast<std::uint32_t>(
        crc32(0, reinterpret_cast<const Bytef*>(entry.text.data()), static_cast<uInt>(entry.text.size())));
    if (entry.wrong_checksum) sum ^= 1U;
    const auto offset = static_cast<std::uint32_t>(out.size());
    std::string common;  // what both headers have
    put(common, 20, 2);
    put(common, entry.flags, 2);
    put(common, entry.deflated ? 8 : 0, 2);
    put(common, 0, 4);
    put(common, sum, 4);
    put(common, static_cast<std::uint32_t>(packed.size()), 4);
    put(common, static_cast<std::uint32_t>(entry.text.size()), 4);
    put(common, static_cast<std::uint32_t>(entry.name.size()), 2);
    put(common, 0, 2);
    out += "PK\x03\x04" + common + entry.name + packed;
    directory += "PK\x01\x02";
    put(directory, 20, 2);
    directory += common;
    put(directory, 0, 2);
    put(directory, 0, 2);
    put(directory, 0, 2);
    put(directory, 0, 4);
    put(directory, offset, 4);
    directory += entry.name;
  }
  const auto begin = static_cast<std::uint32_t>(out.size());
  out += directory;
  out += "PK\x05\x06";
  put(out, 0, 4);
  put(out, static_cast<std::uint32_t>(entries.size()), 2);
  put(out, static_cast<std::uint32_t>(entries.size()), 2);
  put(out, static_cast<std::uint32_t>(directory.size()), 4);
  put(out, begin, 4);
  put(out, 0, 2);
  return out;
}

}  // namespace weatherstruck::feed
