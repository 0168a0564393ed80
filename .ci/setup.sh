# Shared by samples/demo.sh, tests/run.sh and .ci/*: sourced by them, in the project's folder. POSIX sh.
# shellcheck shell=sh

# What the build and the tests need, in Debian's names.
build_packages="g++ cmake ninja-build libboost-dev libpugixml-dev libcli11-dev libfmt-dev catch2 libeigen3-dev libcgal-dev"

say() { printf '%s\n' "tacksquare: $*" >&2; }

stop() {
  say "$*"
  exit 1
}

have() { command -v "$1" >/dev/null 2>&1; }

# missing_packages PACKAGE...: those that dpkg does not have installed.
missing_packages() {
  for package in "$@"; do
    case $(dpkg-query -W -f ' ${db:Status-Status} ' "$package" 2>/dev/null) in
      *' installed '*) ;;
      *) printf '%s ' "$package" ;;
    esac
  done
}

# install_packages [PACKAGE...]: those of the build and these, with apt, without questions, and only what is not
# there. Where that cannot be done it names them and goes on if a compiler and cmake are found: cmake tells the rest.
install_packages() {
  # shellcheck disable=SC2086 # a list of words
  set -- $build_packages "$@"
  if have apt-get && have dpkg-query; then
    missing=$(missing_packages "$@")
    [ -n "$missing" ] || return 0
    if [ "$(id -u)" -eq 0 ]; then
      as_root=
    elif have sudo; then
      as_root=sudo
    else
      install_by_hand "only root or sudo can install $missing" "$@"
      return 0
    fi
    say "installing $missing"
    $as_root apt-get update -q >&2 || say "apt-get update failed; trying with the lists that are here"
    # shellcheck disable=SC2086 # a list of words
    $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends $missing >&2 ||
      install_by_hand "apt-get could not install $missing" "$@"
  else
    install_by_hand "this system has no apt-get" "$@"
  fi
}

install_by_hand() {
  say "$1."
  shift
  say "Please install these (Debian's names; other systems have them under similar ones):"
  say "  $*"
  say "that is: a C++20 compiler (g++ 12 or clang 14, or later), CMake 3.22, Ninja or make,"
  say "Boost 1.74 (headers only), pugixml, CLI11 2, fmt 9, Catch2 2.13 or 3, Eigen 3.4, CGAL 5.5."
  if have cmake && { have c++ || have g++ || have clang++; }; then
    say "A compiler and cmake are here: going on with what is found."
  else
    stop "No compiler or no cmake: stopping."
  fi
}

# build_in FOLDER [TARGET...] [-- CMAKE-OPTION...]: configures FOLDER and brings the targets, or all, up to date.
build_in() {
  folder=$1
  shift
  targets=
  while [ $# -gt 0 ] && [ "$1" != -- ]; do
    targets="$targets $1"
    shift
  done
  if [ $# -gt 0 ]; then shift; fi
  if [ -e "$folder" ] && [ ! -w "$folder" ]; then
    stop "$folder/ belongs to somebody else (built as root?): remove it, then run this again."
  fi
  if [ ! -f "$folder/CMakeCache.txt" ] && have ninja; then set -- -G Ninja "$@"; fi
  cmake -S . -B "$folder" "$@"
  # shellcheck disable=SC2086 # a list of words
  cmake --build "$folder" --parallel "$(jobs_at_once)" ${targets:+--target $targets}
}

# How many compilers or tests at once: one a processor, where that is known.
jobs_at_once() { nproc 2>/dev/null || getconf _NPROCESSORS_ONLN 2>/dev/null || echo 2; }
