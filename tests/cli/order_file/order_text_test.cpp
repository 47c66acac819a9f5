#include "cli/order_file/order_text.hpp"

#include "cli/yaml/order_document.hpp"
#include "tests/support/scratch_directory.hpp"

#include <gtest/gtest.h>

#include <chrono>
#include <filesystem>
#include <string>
#include <sys/resource.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <sys/wait.h>
#include <unistd.h>
#include <variant>

namespace shankline::tests::order_text_test {
namespace {

class OrderText : public testing::Test {
protected:
  std::string path(const std::string& name) const { return (scratch_.path() / name).string(); }

  static void expect_refused(const std::string& file, const std::string& what) {
    const auto begin = std::chrono::steady_clock::now();
    const auto read = read_order_text(file);
    EXPECT_LT(std::chrono::steady_clock::now() - begin, std::chrono::seconds(5)) << "waited";
    ASSERT_TRUE(std::holds_alternative<Message>(read)) << file;
    const auto& message = std::get<Message>(read);
    EXPECT_EQ(message.file, file);
    EXPECT_EQ(message.line, 0);
    EXPECT_NE(message.what.find(what), std::string::npos) << message.what;
    EXPECT_FALSE(message.advice.empty());
  }

  ScratchDirectory scratch_;
};

TEST_F(OrderText, APlainFileComesBackByteForByte) {
  const std::string bytes = std::string("dancer: M-07\r\n\xff") + '\0' + "end";
  write_file(path("order.yaml"), bytes);
  const auto read = read_order_text(path("order.yaml"));
  ASSERT_TRUE(std::holds_alternative<std::string>(read));
  EXPECT_EQ(std::get<std::string>(read), bytes);
}

TEST_F(OrderText, TheLargestOrderIsReadAndOneByteMoreIsNot) {
  write_file(path("large"), std::string(largest_order, '#'));
  ASSERT_TRUE(std::holds_alternative<std::string>(read_order_text(path("large"))));
  write_file(path("larger"), std::string(largest_order + 1, '#'));
  expect_refused(path("larger"), "larger than 64 KB");
}

TEST_F(OrderText, AMissingFileIsNamed) {
  expect_refused(path("missing.yaml"), "no such file");
  write_file(path("file"), "x");
  expect_refused(path("file/inside"), "no such file");
}

TEST_F(OrderText, AFolderIsNoOrder) {
  expect_refused(scratch_.path().string(), "folder");
}

TEST_F(OrderText, APipeThatNobodyWritesToDoesNotHang) {
  ASSERT_EQ(::mkfifo(path("pipe").c_str(), 0600), 0);
  expect_refused(path("pipe"), "not a plain file");
}

TEST_F(OrderText, DevicesAreNoOrders) {
  expect_refused("/dev/zero", "not a plain file");
  expect_refused("/dev/null", "not a plain file");
}

TEST_F(OrderText, ASocketIsNoOrder) {
  const int socket = ::socket(AF_UNIX, SOCK_STREAM, 0);
  ASSERT_GE(socket, 0);
  sockaddr_un address{};
  address.sun_family = AF_UNIX;
  const std::string name = path("socket");
  ASSERT_LT(name.size(), sizeof(address.sun_path));
  name.copy(address.sun_path, name.size());
  const auto* plain = static_cast<const sockaddr*>(static_cast<const void*>(&address));
  ASSERT_EQ(::bind(socket, plain, sizeof(address)), 0);
  expect_refused(name, "not a plain file");
  ::close(socket);
}

// The child's result; the child must not be root, whom permissions do not stop.
enum ChildSaw { refused_in_words = 0, read_it = 10, other_words = 11, still_root = 12 };

ChildSaw read_as_nobody(const std::string& file) {
  constexpr unsigned nobody = 65534;
  if (::geteuid() == 0 && (::setgid(nobody) != 0 || ::setuid(nobody) != 0)) return still_root;
  const auto read = read_order_text(file);
  if (std::holds_alternative<std::string>(read)) return read_it;
  const bool said = std::get<Message>(read).what.find("may not read") != std::string::npos;
  return said ? refused_in_words : other_words;
}

TEST_F(OrderText, AFileWithoutPermissionIsNamed) {
  write_file(path("private.yaml"), "dancer: M-07\n");
  std::filesystem::permissions(scratch_.path(), std::filesystem::perms::all);
  std::filesystem::permissions(path("private.yaml"), std::filesystem::perms::none);
  const pid_t child = ::fork();
  ASSERT_GE(child, 0);
  if (child == 0) ::_exit(read_as_nobody(path("private.yaml")));
  int status = 0;
  ASSERT_EQ(::waitpid(child, &status, 0), child);
  ASSERT_TRUE(WIFEXITED(status));
  EXPECT_EQ(WEXITSTATUS(status), refused_in_words);
}

// Standard input of a child is what the test gives it; the child's exit code tells what was read.
int read_standard_input(const std::string& given) {
  int ends[2];
  if (::pipe(ends) != 0) return -1;
  const pid_t child = ::fork();
  if (child == 0) {
    ::dup2(ends[0], STDIN_FILENO);
    ::close(ends[0]);
    ::close(ends[1]);
    const auto read = read_order_text("-");
    if (const auto* text = std::get_if<std::string>(&read)) ::_exit(*text == given ? 0 : 1);
    ::_exit(std::get<Message>(read).file == "standard input" ? 2 : 3);
  }
  ::close(ends[0]);
  std::size_t written = 0;
  while (written < given.size()) {
    const ssize_t count = ::write(ends[1], given.data() + written, given.size() - written);
    if (count <= 0) break;
    written += static_cast<std::size_t>(count);
  }
  ::close(ends[1]);
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

TEST_F(OrderText, ADashIsStandardInput) {
  EXPECT_EQ(read_standard_input("dancer: M-07\n"), 0);
  EXPECT_EQ(read_standard_input(""), 0);
  EXPECT_EQ(read_standard_input(std::string(largest_order, '#')), 0);
}

TEST_F(OrderText, StandardInputIsBoundedAsWell) {
  EXPECT_EQ(read_standard_input(std::string(largest_order + 1, '#')), 2);
}

// No fault of the order: the program has too many files open.
TEST_F(OrderText, TooFewFileHandlesAreNoFaultOfTheOrder) {
  const std::string file = path("order.yaml");
  write_file(file, "dancer: M-07\n");
  const pid_t child = fork();
  ASSERT_GE(child, 0);
  if (child == 0) {
    const int next = dup(STDIN_FILENO);
    close(next);
    const rlimit none{static_cast<rlim_t>(next), static_cast<rlim_t>(next)};
    setrlimit(RLIMIT_NOFILE, &none);
    try {
      (void)read_order_text(file);
    } catch (const FileFault& fault) {
      const std::string wanted =
          "too many files are open: only " + std::to_string(next) + " are allowed here";
      const bool said = std::string(fault.what()).ends_with(wanted) &&
                        fault.advice.find("ulimit -n") != std::string::npos;
      _exit(said ? 0 : 2);
    }
    _exit(1);
  }
  int status = -1;
  ASSERT_EQ(waitpid(child, &status, 0), child);
  EXPECT_TRUE(WIFEXITED(status));
  EXPECT_EQ(WEXITSTATUS(status), 0) << "1: taken for the order's fault, 2: not said";
}

} // namespace
} // namespace shankline::tests::order_text_test
