// Package golden compares what a test made with what is kept in testdata. For tests only.
//
// A kept file changes only when somebody says so: with the flag -update, or with FOLDWRIGHT_GOLDEN=update in the
// environment, which reaches every package at once. A difference writes what was made beside the kept file, with .out
// behind its name. A kept file that is missing, or that no test compared any more, is a failure.
package golden
