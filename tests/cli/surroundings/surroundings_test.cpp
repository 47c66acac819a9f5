// The program in hostile surroundings: closed and broken streams, odd paths, links, umasks, limits,
// no home. It does its work or says what is wrong; it never dies of a signal.
#include "tests/support/fewer_cases.hpp"
#include "tests/support/places.hpp"
#include "tests/support/process.hpp"
#include "tests/support/scratch_directory.hpp"

#include <filesystem>
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <sys/sysmacros.h>
#include <unistd.h>

namespace shankline::tests::surroundings_test {
namespace {

namespace fs = std::filesystem;

class Surrounded : public testing::Test {
protected:
  void SetUp() override {
    fs::copy_file(fs::path(places::samples) / "plain.yaml", here() / "order.yaml");
  }

  fs::path here() const { return scratch_.path(); }

  Finished shell(const std::string& command) const {
    Surroundings there;
    there.directory = here();
    there.environment["SHANKLINE"] = places::program;
    return run_shell(command, there);
  }

  bool has_pdf(const fs::path& file) const {
    return fs::is_regular_file(file) && read_file(file).substr(0, 4) == "%PDF";
  }

  ScratchDirectory scratch_;
};

TEST_F(Surrounded, AClosedInputChangesNothing) {
  EXPECT_EQ(shell("\"$SHANKLINE\" cut order.yaml -o a.pdf <&-").exit_code, 0);
  EXPECT_TRUE(has_pdf(here() / "a.pdf"));
}

TEST_F(Surrounded, AClosedOutputIsSaidAndTheSheetsAreWritten) {
  const Finished cut = shell("\"$SHANKLINE\" cut order.yaml -o a.pdf >&-");
  EXPECT_EQ(cut.exit_code, 3);
  EXPECT_NE(cut.err.find("standard output"), std::string::npos) << cut.err;
  EXPECT_TRUE(has_pdf(here() / "a.pdf"));
}

TEST_F(Surrounded, ClosedMessagesDoNotEndUpInTheSheets) {
  // With 2 closed the next file opened would get that number.
  EXPECT_EQ(shell("\"$SHANKLINE\" cut order.yaml -q -o a.pdf 2>&-").exit_code, 0);
  EXPECT_TRUE(has_pdf(here() / "a.pdf"));
  EXPECT_EQ(shell("\"$SHANKLINE\" cut missing.yaml -o b.pdf >&- 2>&- <&-").exit_code, 1);
  EXPECT_FALSE(fs::exists(here() / "b.pdf"));
}

TEST_F(Surrounded, ABrokenPipeIsNoDeath) {
  const Finished cut =
      shell("{ \"$SHANKLINE\" cut order.yaml --lines -o a.pdf; echo $? >code; } | true; cat code");
  EXPECT_EQ(cut.out, "3\n");
  EXPECT_TRUE(has_pdf(here() / "a.pdf"));
}

TEST_F(Surrounded, AFullOutputIsSaid) {
  const Finished check = shell("\"$SHANKLINE\" check order.yaml >/dev/full");
  EXPECT_EQ(check.exit_code, 3);
  EXPECT_NE(check.err.find("standard output"), std::string::npos) << check.err;
}

TEST_F(Surrounded, LocaleAndTimeZoneChangeNoByte) {
  ASSERT_EQ(shell("\"$SHANKLINE\" cut order.yaml -q -o a.pdf").exit_code, 0);
  for (const char* around :
       {"LC_ALL=C.UTF-8", "LC_ALL=de_DE.UTF-8 LANG=de_DE.UTF-8", "LC_ALL=tr_TR.UTF-8",
        "TZ=Pacific/Auckland", "LC_ALL=nonsense TZ=nonsense"}) {
    ASSERT_EQ(shell("env " + std::string(around) + " \"$SHANKLINE\" cut order.yaml -q -o b.pdf")
                  .exit_code,
              0)
        << around;
    EXPECT_EQ(read_file(here() / "a.pdf"), read_file(here() / "b.pdf")) << around;
  }
}

TEST_F(Surrounded, TheUmaskHolds) {
  ASSERT_EQ(shell("umask 077; \"$SHANKLINE\" cut order.yaml -q -o a.pdf").exit_code, 0);
  ASSERT_EQ(shell("umask 022; \"$SHANKLINE\" cut order.yaml -q -o b.pdf").exit_code, 0);
  struct stat about {};
  ASSERT_EQ(stat((here() / "a.pdf").c_str(), &about), 0);
  EXPECT_EQ(about.st_mode & 0777u, 0600u);
  ASSERT_EQ(stat((here() / "b.pdf").c_str(), &about), 0);
  EXPECT_EQ(about.st_mode & 0777u, 0644u);
}

TEST_F(Surrounded, ALinkedTargetStaysALink) {
  fs::create_directory(here() / "shared");
  write_file(here() / "shared/real.pdf", "%PDF-older");
  fs::create_symlink("shared/real.pdf", here() / "link.pdf");
  ASSERT_EQ(shell("\"$SHANKLINE\" cut order.yaml -q -o link.pdf").exit_code, 0);
  EXPECT_TRUE(fs::is_symlink(here() / "link.pdf"));
  EXPECT_TRUE(has_pdf(here() / "shared/real.pdf"));
}

TEST_F(Surrounded, ALinkToNothingMakesWhatItNames) {
  fs::create_symlink("new.pdf", here() / "link.pdf");
  ASSERT_EQ(shell("\"$SHANKLINE\" cut order.yaml -q -o link.pdf").exit_code, 0);
  EXPECT_TRUE(has_pdf(here() / "new.pdf"));
  fs::create_symlink("loop.pdf", here() / "loop.pdf");
  const Finished loop = shell("\"$SHANKLINE\" cut order.yaml -q -o loop.pdf");
  EXPECT_EQ(loop.exit_code, 3) << loop.err;
}

// Standard output by its other names: a pipe or a file behind it takes the PDF alone.
TEST_F(Surrounded, StandardOutputByItsOtherNamesTakesThePdf) {
  ASSERT_EQ(shell("\"$SHANKLINE\" cut order.yaml -q -o - > whole.pdf").exit_code, 0);
  fs::create_symlink("/dev/stdout", here() / "link.pdf");
  for (const std::string name :
       {"/dev/stdout", "/proc/self/fd/1", "/dev/fd/1", "/proc/thread-self/fd/1", "link.pdf"}) {
    for (const char* behind : {" | cat > a.pdf", " > a.pdf"}) {
      const Finished cut = shell("\"$SHANKLINE\" cut order.yaml -o " + name + behind);
      EXPECT_EQ(cut.exit_code, 0) << name << cut.err;
      EXPECT_NE(cut.err.find("wrote to standard output"), std::string::npos) << cut.err;
      EXPECT_TRUE(read_file(here() / "a.pdf") == read_file(here() / "whole.pdf")) << name << behind;
      fs::remove(here() / "a.pdf");
    }
  }
  EXPECT_TRUE(fs::is_symlink(here() / "link.pdf"));
  const Finished two = shell("\"$SHANKLINE\" cut order.yaml --json -o /dev/stdout | cat");
  EXPECT_NE(two.err.find("would both go to standard output"), std::string::npos) << two.err;
  // Another open pipe has another number and stays what it is.
  ASSERT_EQ(shell("\"$SHANKLINE\" cut order.yaml -q -o /dev/fd/3 3>&1 >/dev/null | cat > b.pdf")
                .exit_code,
            0);
  EXPECT_TRUE(read_file(here() / "b.pdf") == read_file(here() / "whole.pdf"));
}

TEST_F(Surrounded, ANamedPipeTakesOnePdf) {
  ASSERT_EQ(shell("mkfifo pipe; cat pipe > a.pdf & \"$SHANKLINE\" cut order.yaml -o pipe && wait")
                .exit_code,
            0);
  EXPECT_TRUE(has_pdf(here() / "a.pdf"));
  EXPECT_TRUE(read_file(here() / "a.pdf").ends_with("%%EOF\n"));
  EXPECT_TRUE(fs::is_fifo(here() / "pipe"));
}

// A device of the test's own where it is root: a mistake in the code must not cost the machine one.
TEST_F(Surrounded, ADeviceIsNoPlaceForAPdf) {
  std::string device = "/dev/full";
  if (getuid() == 0) {
    device = (here() / "full").string();
    if (mknod(device.c_str(), S_IFCHR | 0600, makedev(1, 7)) != 0)
      GTEST_SKIP() << "no device can be made here";
  }
  for (const char* words : {"cut order.yaml -q", "form -q", "rack order.yaml -q"}) {
    const Finished made = shell("\"$SHANKLINE\" " + std::string(words) + " -o " + device);
    EXPECT_EQ(made.exit_code, 3) << words;
    EXPECT_EQ(made.err, "error: " + device +
                            ": is a device, and nothing was written onto it\n"
                            "  do: write a file, and print it with this system's print command, "
                            "such as lp FILE\n");
    EXPECT_TRUE(fs::is_character_file(device)) << words;
  }
}

/// With a link in a shared folder that the kernel lets nobody follow.
class Planted : public Surrounded {
protected:
  void SetUp() override {
    if (under_sanitizers) GTEST_SKIP() << "these want to be loaded first themselves";
    Surrounded::SetUp();
    write_file(here() / "somebodys", "words of somebody\n");
    fs::create_symlink("somebodys", here() / "planted.pdf");
  }

  Finished with_planted(const std::string& command) const {
    return shell("LD_PRELOAD='" + places::failing_calls + "' SHANKLINE_PLANTED=planted.pdf " +
                 command);
  }

  void expect_untouched() const {
    EXPECT_TRUE(fs::is_symlink(here() / "planted.pdf"));
    EXPECT_TRUE(read_file(here() / "somebodys") == "words of somebody\n");
  }
};

TEST_F(Planted, ALinkThatMayNotBeFollowedIsNoFreePlace) {
  for (const char* command :
       {"cut order.yaml -q", "form", "chart order.yaml -q", "cut order.yaml -q --svg"}) {
    const Finished made =
        with_planted("\"$SHANKLINE\" " + std::string(command) + " -o planted.pdf");
    EXPECT_EQ(made.exit_code, 3) << command << made.err;
    EXPECT_NE(made.err.find("planted.pdf: cannot be reached: Permission denied"), std::string::npos)
        << made.err;
    expect_untouched();
  }
}

/// A file that the tool keeps for itself has one name and is no link.
class PrinterLink : public Surrounded {
protected:
  static constexpr const char* measured = "printer desk --measured 160,213.4,266.8,266.8";

  Finished printer(const std::string& words) const {
    return shell("XDG_CONFIG_HOME=\"$PWD/config\" \"$SHANKLINE\" " + words);
  }
  fs::path stored() const { return here() / "config/shankline/printers/desk.yaml"; }
};

TEST_F(PrinterLink, IsNeitherWrittenThroughNorRead) {
  ASSERT_EQ(printer(measured).exit_code, 0);
  const std::string kept = read_file(stored());
  fs::rename(stored(), here() / "elsewhere.yaml");
  fs::create_symlink(here() / "elsewhere.yaml", stored());
  const Finished again = printer("printer desk --measured 161,214.4,268,268");
  EXPECT_EQ(again.exit_code, 3) << again.out << again.err;
  EXPECT_NE(again.err.find("desk.yaml: is a link"), std::string::npos) << again.err;
  EXPECT_NE(again.err.find("delete the link"), std::string::npos) << again.err;
  EXPECT_EQ(read_file(here() / "elsewhere.yaml"), kept);
  const Finished read = printer("printer desk");
  EXPECT_EQ(read.exit_code, 1) << read.out << read.err;
  EXPECT_NE(read.err.find("desk.yaml: error: is a link"), std::string::npos) << read.err;
  // The link goes, and not what it names.
  EXPECT_EQ(printer("printer desk --forget").exit_code, 0);
  EXPECT_FALSE(fs::exists(fs::symlink_status(stored())));
  EXPECT_EQ(read_file(here() / "elsewhere.yaml"), kept);
  EXPECT_EQ(printer(measured).exit_code, 0);
}

TEST_F(Surrounded, AnArchiveIsNotMadeThroughALink) {
  fs::create_symlink("elsewhere.sqlite", here() / "archive.sqlite");
  const Finished saved = shell("\"$SHANKLINE\" archive save order.yaml --archive archive.sqlite");
  EXPECT_EQ(saved.exit_code, 3) << saved.out << saved.err;
  EXPECT_FALSE(fs::exists(here() / "elsewhere.sqlite"));
}

TEST_F(Surrounded, LongAndOddPathsAreTaken) {
  const std::string folder = "a folder with spaces, 'quotes' and \xc3\xa9";
  fs::create_directory(here() / folder);
  std::string deep = folder;
  for (int i = 0; i < 12; ++i)
    deep += "/" + std::string(120, 'd');
  fs::create_directories(here() / deep);
  Surroundings there;
  there.directory = here();
  const Finished cut = run(
      {places::program, "cut", "./" + folder + "/../order.yaml", "-q", "-o", deep + "/"}, there);
  EXPECT_EQ(cut.exit_code, 0) << cut.err;
  EXPECT_TRUE(has_pdf(here() / deep / "order.pdf"));
  const Finished longer = run(
      {places::program, "cut", "order.yaml", "-q", "-o", std::string(5000, 'x') + ".pdf"}, there);
  EXPECT_EQ(longer.exit_code, 3) << longer.err;
}

TEST_F(Surrounded, ControlCharactersOfANameNeverReachTheTerminal) {
  fs::copy_file(here() / "order.yaml", here() / "re\033[31md.yaml");
  const Finished cut = shell("\"$SHANKLINE\" cut re*d.yaml; \"$SHANKLINE\" check $(printf "
                             "'no\\033[2Jne.yaml')");
  EXPECT_EQ((cut.out + cut.err).find('\033'), std::string::npos) << cut.out << cut.err;
  EXPECT_NE(cut.out.find("re?[31md.pdf"), std::string::npos) << cut.out;
}

TEST_F(Surrounded, NeitherHomeNorTerminalIsNeeded) {
  EXPECT_EQ(shell("env -i \"$SHANKLINE\" cut order.yaml -q -o a.pdf").exit_code, 0);
  EXPECT_EQ(shell("HOME=/proc/nowhere setsid \"$SHANKLINE\" cut order.yaml -q -o b.pdf").exit_code,
            0);
  EXPECT_EQ(read_file(here() / "a.pdf"), read_file(here() / "b.pdf"));
}

TEST_F(Surrounded, LimitsAreSaidAndNothingIsLeft) {
  write_file(here() / "a.pdf", "%PDF-older");
  const Finished small = shell("ulimit -f 8; \"$SHANKLINE\" cut order.yaml -q -o a.pdf");
  EXPECT_EQ(small.exit_code, 3) << small.err;
  EXPECT_EQ(read_file(here() / "a.pdf"), "%PDF-older");
  EXPECT_EQ(std::distance(fs::directory_iterator(here()), fs::directory_iterator()), 2);
  // 24 MB of address space beyond what the program maps is plenty; a sanitizer wants terabytes.
  if (!under_sanitizers) {
    EXPECT_EQ(shell("ulimit -v 65536; \"$SHANKLINE\" cut order.yaml -q -o a.pdf").exit_code, 0);
  }
}

} // namespace
} // namespace shankline::tests::surroundings_test
