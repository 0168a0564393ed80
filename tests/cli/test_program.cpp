// The program itself, run by a shell: exit codes, ends that cannot be written, and other locales.
#include "support/folder.h"
#include "support/repeat.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sys/wait.h>
#include <unistd.h>

namespace {

namespace fs = std::filesystem;
using tacksquare::test::kSanitized;

class Folder : public tacksquare::test::Folder {
 public:
  std::string text(const std::string& name) const {
    std::ifstream in(path() / name, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  }
  // In this folder, with $T for the program and $S for the samples; the exit code.
  int shell(const std::string& command) const {
    const std::string line = "cd '" + path().string() +
                             "' && T='" TACKSQUARE_BINARY "' S='" TACKSQUARE_SOURCE "/samples' && { " +
                             command + "; }";
    const int status = std::system(line.c_str());
    return WIFEXITED(status) ? WEXITSTATUS(status) : 1000 + status;
  }
};

} // namespace

TEST_CASE("the program gives its exit codes and writes its files") {
  const Folder folder;
  CHECK(folder.shell("\"$T\" --version > out") == 0);
  CHECK(folder.text("out").rfind("tacksquare ", 0) == 0);
  CHECK(folder.shell("\"$T\" plan \"$S/gear-locker.xml\" -o made/here > out") == 0);
  CHECK(folder.text("made/here/sheet.html").size() > 1000);
  CHECK(folder.text("made/here/sheet.txt").size() > 1000);
  CHECK(folder.text("made/here/plan.xml").size() > 1000);
  CHECK(folder.shell("\"$T\" plan missing.xml 2> err") == 2);
  CHECK(folder.text("err").find("missing.xml") != std::string::npos);
  CHECK(folder.shell("\"$T\" start > job.xml && \"$T\" plan - < job.xml > out") == 0);
}

TEST_CASE("standard output that cannot be written is told, with exit code 2") {
  const Folder folder;
  if (fs::exists("/dev/full")) {
    CHECK(folder.shell("\"$T\" plan --quick \"$S/gear-locker.xml\" > /dev/full 2> err") == 2);
    CHECK(folder.text("err").find("standard output could not be written") != std::string::npos);
  }
  // A reader that goes before the first byte comes: the fifo has one for a moment only.
  CHECK(folder.shell("mkfifo pipe && { (exec 3< pipe) & exec 4> pipe; wait; \"$T\" plan --quick "
                     "\"$S/gear-locker.xml\" >&4 2> "
                     "err; }") == 2);
  CHECK(folder.text("err").find("standard output could not be written") != std::string::npos);
}

TEST_CASE("a limit on the length of files leaves nothing behind") {
  const Folder folder;
  CHECK(folder.shell("(ulimit -f 16; \"$T\" plan --quick \"$S/gear-locker.xml\" -o made > out 2> err)") == 2);
  CHECK(folder.shell("test ! -e made") == 0);
}

TEST_CASE("a folder as standard input, and none at all, are told") {
  const Folder folder;
  for (const char* input : {"< .", "<&-"}) {
    INFO(input);
    CHECK(folder.shell("\"$T\" plan - " + std::string(input) + " 2> err") == 2);
    CHECK(folder.text("err").find("cannot read <standard input>") != std::string::npos);
  }
}

TEST_CASE("another locale gives the same bytes") {
  const Folder folder;
  const std::string how = kSanitized ? " --quick" : "";
  CHECK(folder.shell(
            "for l in C C.UTF-8 de_DE.UTF-8 tr_TR.UTF-8; do mkdir $l && (cd $l && LC_ALL=$l \"$T\" plan" +
            how + " \"$S/gear-locker.xml\" -o made > out) && diff -r C $l || exit 9; done") == 0);
  for (const char* made : {"sheet.txt", "sheet.html", "plan.xml"})
    CHECK(folder.text("tr_TR.UTF-8/made/" + std::string(made)).size() > 1000);
}

TEST_CASE("a device, also behind a link, is never replaced by a file") {
  const Folder folder;
  CHECK(folder.shell("mkfifo pipe && ln -s pipe link && \"$T\" start --replace pipe 2> err") == 2);
  CHECK(folder.text("err").find("it is a device or a pipe") != std::string::npos);
  CHECK(folder.shell("\"$T\" start --replace link 2> err") == 2);
  CHECK(folder.shell("test -p pipe && test -L link && \"$T\" start pipe 2> err") == 2);
}
