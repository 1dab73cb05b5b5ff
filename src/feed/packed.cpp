#include "packed.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstring>
#include <memory>

#include <fmt/format.h>
#include <minizip/unzip.h>
#include <zlib.h>

namespace weatherstruck::feed {
namespace {

constexpr std::size_t kPiece = std::size_t{64} << 10;
constexpr int kMostFiles = 1000;  // a forecast's archive has one
constexpr std::size_t kLongestName = 256;

std::string too_big(std::size_t most) {
  return fmt::format("more than {} MiB once unpacked", most >> 20);
}

// ------------------------------------------------------------------- an archive in memory, for minizip

struct Memory {
  std::string_view bytes;
  std::size_t at = 0;
};

voidpf open_memory(voidpf memory, const void* /*name*/, int mode) {
  return (mode & ZLIB_FILEFUNC_MODE_WRITE) != 0 ? nullptr : memory;
}
uLong read_memory(voidpf memory, voidpf /*stream*/, void* to, uLong size) {
  auto& from = *static_cast<Memory*>(memory);
  const std::size_t count = std::min<std::size_t>(size, from.bytes.size() - from.at);
  if (count > 0) std::memcpy(to, from.bytes.data() + from.at, count);
  from.at += count;
  return static_cast<uLong>(count);
}
uLong write_nothing(voidpf /*memory*/, voidpf /*stream*/, const void* /*from*/, uLong /*size*/) {
  return 0;
}
ZPOS64_T tell_memory(voidpf memory, voidpf /*stream*/) {
  return static_cast<Memory*>(memory)->at;
}
long seek_memory(voidpf memory, voidpf /*stream*/, ZPOS64_T offset, int origin) {
  auto& in = *static_cast<Memory*>(memory);
  const ZPOS64_T size = in.bytes.size();
  ZPOS64_T base = 0;
  if (origin == ZLIB_FILEFUNC_SEEK_CUR) base = in.at;
  if (origin == ZLIB_FILEFUNC_SEEK_END) base = size;
  if (offset > size - base) return -1;
  in.at = static_cast<std::size_t>(base + offset);
  return 0;
}
int close_memory(voidpf /*memory*/, voidpf /*stream*/) {
  return 0;
}
int no_error(voidpf /*memory*/, voidpf /*stream*/) {
  return 0;
}

struct CloseArchive {
  void operator()(void* archive) const { unzClose(archive); }
};

char lower(char c) {
  return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

bool ends_with(std::string_view name, std::string_view ending) {
  return name.size() >= ending.size() &&
         std::equal(ending.begin(), ending.end(), name.end() - static_cast<std::ptrdiff_t>(ending.size()),
                    [](char a, char b) { return lower(a) == lower(b); });
}

// The file at which the archive stands, opened.
Unpacked read_current(unzFile archive, std::size_t most) {
  std::string bytes;
  std::string piece(kPiece, '\0');
  int got = 0;
  while ((got = unzReadCurrentFile(archive, piece.data(), static_cast<unsigned>(piece.size()))) > 0) {
    bytes.append(piece, 0, static_cast<std::size_t>(got));
    if (bytes.size() > most) {
      unzCloseCurrentFile(archive);
      return {"", too_big(most)};
    }
  }
  const int closed = unzCloseCurrentFile(archive);
  if (got < 0) return {"", "a zip archive that breaks off or is damaged"};
  if (closed == UNZ_CRCERROR) return {"", "a zip archive whose checksum does not hold"};
  if (bytes.empty()) return {"", "a zip archive with an empty file in it"};
  return {std::move(bytes), ""};
}

}  // namespace

Unpacked unzipped(std::string_view archive, std::string_view ending, std::size_t most) {
  Memory memory{archive, 0};
  zlib_filefunc64_def io{};
  io.zopen64_file = &open_memory;
  io.zread_file = &read_memory;
  io.zwrite_file = &write_nothing;
  io.ztell64_file = &tell_memory;
  io.zseek64_file = &seek_memory;
  io.zclose_file = &close_memory;
  io.zerror_file = &no_error;
  io.opaque = &memory;
  const std::unique_ptr<void, CloseArchive> opened(unzOpen2_64("", &io));
  if (!opened) return {"", "a zip archive that breaks off or is damaged"};
  int files = 0;
  for (int step = unzGoToFirstFile(opened.get()); step == UNZ_OK && files < kMostFiles;
       step = unzGoToNextFile(opened.get()), ++files) {
    unz_file_info64 info{};
    std::array<char, kLongestName + 1> name{};
    if (unzGetCurrentFileInfo64(opened.get(), &info, name.data(), kLongestName, nullptr, 0, nullptr, 0) !=
        UNZ_OK)
      break;
    if (!ends_with(name.data(), ending)) continue;
    if ((info.flag & 1U) != 0) return {"", "a zip archive locked with a password"};
    if (unzOpenCurrentFile(opened.get()) != UNZ_OK)
      return {"", "a zip archive that is damaged, or packed in a way not known here"};
    return read_current(opened.get(), most);
  }
  return {"", fmt::format("a zip archive without a file that ends in {}", ending)};
}

Unpacked gunzipped(std::string_view bytes, std::size_t most) {
  z_stream stream{};
  constexpr int gzip_only = 16 + MAX_WBITS;
  if (inflateInit2(&stream, gzip_only) != Z_OK) return {"", "no memory to unpack it"};
  const std::unique_ptr<z_stream, int (*)(z_stream*)> end(&stream, &inflateEnd);
  std::string packed(bytes);  // zlib does not promise to leave its input alone
  std::string out;
  std::string piece(kPiece, '\0');
  std::size_t at = 0;
  int step = Z_OK;
  while (true) {
    // Pieces, since a count of zlib has 32 bits.
    stream.next_in =
        reinterpret_cast<Bytef*>(packed.data() + at);  // NOLINT(cppcoreguidelines-pro-type-reinterpret-cast)
    stream.avail_in = static_cast<uInt>(std::min(kPiece, packed.size() - at));
    const uInt offered = stream.avail_in;
    stream.next_out =
        reinterpret_cast<Bytef*>(piece.data());  // NOLINT(cppcoreguidelines-pro-type-reinterpret-cast)
    stream.avail_out = static_cast<uInt>(piece.size());
    step = inflate(&stream, Z_NO_FLUSH);
    const std::size_t taken = offered - stream.avail_in;
    const std::size_t made = piece.size() - stream.avail_out;
    at += taken;
    out.append(piece, 0, made);
    if (out.size() > most) return {"", too_big(most)};
    if (step == Z_STREAM_END) {
      at = std::min(packed.find_first_not_of('\0', at), packed.size());
      if (at == packed.size()) break;
      if (!is_gzip(std::string_view(packed).substr(at)))
        return {"", "a gzip file with something else behind it"};
      if (inflateReset(&stream) != Z_OK) return {"", "a gzip file that is damaged"};
      continue;
    }
    if (step != Z_OK && step != Z_BUF_ERROR) return {"", "a gzip file that is damaged"};
    if (taken == 0 && made == 0) return {"", "a gzip file that breaks off"};
  }
  if (out.empty()) return {"", "a gzip file with nothing in it"};
  return {std::move(out), ""};
}

}  // namespace weatherstruck::feed
