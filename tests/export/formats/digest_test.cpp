#include "export/formats/digest.hpp"

#include <gtest/gtest.h>

namespace shankline::tests::digest_test {
namespace {

// FIPS 180-2, appendix B: the examples for "abc" and for the two-block message.
TEST(Digest, ReproducesThePublishedExamples) {
  EXPECT_EQ(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
}

TEST(Digest, IsShortEnoughToReadOut) {
  EXPECT_EQ(short_digest(sha256("abc")), "ba78 16bf");
}

} // namespace
} // namespace shankline::tests::digest_test
