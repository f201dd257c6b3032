package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// readLimit is how much of a recipe is read: one byte more than any that is accepted, so that a huge file costs no memory
// and is still refused as too long.
const readLimit = 4 << 20

// read returns the text of a recipe; - is standard input.
func (e *env) read(path string) ([]byte, error) {
	if path == "-" {
		return io.ReadAll(io.LimitReader(e.stdin, readLimit))
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, fileError(err, path)
	}
	defer f.Close()
	if info, err := f.Stat(); err == nil && info.IsDir() {
		return nil, fail(exitFiles, "%s is a folder; name a recipe file in it", path)
	}
	text, err := io.ReadAll(io.LimitReader(f, readLimit))
	if err != nil {
		return nil, fileError(err, path)
	}
	return text, nil
}

func fileError(err error, path string) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if _, err := os.Stat(filepath.Dir(path)); err != nil {
			return fail(exitFiles, "there is no folder %s", filepath.Dir(path))
		}
		return fail(exitFiles, "there is no file %s", path)
	case errors.Is(err, fs.ErrPermission):
		return fail(exitFiles, "%s may not be read or written by you", path)
	}
	return fail(exitFiles, "%s: %v", path, err)
}

// words returns where a command says its findings: not on standard output where that is for a recipe alone.
func (e *env) words(out string) io.Writer {
	if out == "-" {
		return e.stderr
	}
	return e.stdout
}

// nameOf returns how messages call a file.
func nameOf(path string) string {
	if path == "-" {
		return "standard input"
	}
	return path
}

// writeFile writes a file as a whole or not at all: beside it first, then in its place.
func writeFile(path string, data []byte) error {
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real // a link stays a link
	}
	if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
		return writeInto(path, info, data)
	}
	f, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+".*")
	if err != nil {
		return fileError(err, path)
	}
	defer os.Remove(f.Name()) // gone already once it was renamed
	mode := fs.FileMode(0o644)
	if info, err := os.Stat(path); err == nil {
		mode = info.Mode().Perm()
	}
	_, err = f.Write(data)
	for _, step := range []func() error{f.Sync, func() error { return f.Chmod(mode) }, f.Close} {
		if e := step(); err == nil {
			err = e
		}
	}
	if err == nil {
		err = os.Rename(f.Name(), path)
	}
	if err != nil {
		return fileError(err, path)
	}
	return nil
}

// writeInto writes to what is no regular file, such as a device or a pipe: nothing may be put in its place.
func writeInto(path string, info fs.FileInfo, data []byte) error {
	if info.IsDir() {
		return fail(exitFiles, "%s is a folder; name a file in it", path)
	}
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return fileError(err, path)
	}
	_, err = f.Write(data)
	if e := f.Close(); err == nil {
		err = e
	}
	if err != nil {
		return fileError(err, path)
	}
	return nil
}

// file is one file that a command is about to write.
type file struct {
	name string
	data []byte
}

// writeAll writes files into a folder, which is made if need be. They are all prepared before the first is written.
func writeAll(folder string, files []file) error {
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return fail(exitFiles, "the folder %s cannot be made: %v", folder, err)
	}
	for _, f := range files {
		if err := writeFile(filepath.Join(folder, f.name), f.data); err != nil {
			return fmt.Errorf("write %s: %w", f.name, err)
		}
	}
	return nil
}
