package main

import (
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"
)

// TestWriteFile_pipe: what is no regular file is written to and stays what it is; a device that is replaced by a file harms
// the whole machine.
func TestWriteFile_pipe(t *testing.T) {
	path := filepath.Join(t.TempDir(), "pipe")
	if err := syscall.Mkfifo(path, 0o600); err != nil {
		t.Skipf("no named pipes here: %v", err)
	}
	got := make(chan string)
	go func() {
		f, err := os.Open(path)
		if err != nil {
			got <- err.Error()
			return
		}
		defer f.Close()
		text, _ := io.ReadAll(f)
		got <- string(text)
	}()
	if err := writeFile(path, []byte("card")); err != nil {
		t.Fatal(err)
	}
	if text := <-got; text != "card" {
		t.Errorf("the pipe gave %q", text)
	}
	if info, err := os.Lstat(path); err != nil || info.Mode()&fs.ModeNamedPipe == 0 {
		t.Errorf("the pipe is gone: %v, %v", info, err)
	}
	if err := writeFile(t.TempDir(), []byte("card")); err == nil {
		t.Error("a folder was written to")
	}
}
