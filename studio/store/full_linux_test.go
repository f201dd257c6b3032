package store

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"
)

// fillDisk is the child with a disk of its own, of 600 kB: it fills it, looks whether anything is lost, makes room, and goes on.
func fillDisk(args []string) error {
	if err := syscall.Mount("tmpfs", args[0], "tmpfs", 0, "size=600k"); err != nil {
		fmt.Println("no disk:", err)
		return nil
	}
	ballast := filepath.Join(args[0], "ballast")
	if err := os.WriteFile(ballast, make([]byte, 150_000), 0o600); err != nil {
		return err
	}
	path := filepath.Join(args[0], "harbour.studio")
	s, err := Open(ctx, path, time.Now)
	if err != nil {
		return err
	}
	r, err := s.Add(ctx, "0", nil, "first")
	if err != nil {
		return err
	}
	known, err := fill(s, r.Doc, 1)
	fmt.Printf("%d edits, then: %v\n", len(known), err)
	if !Is(err, Full) {
		return fmt.Errorf("not said to be full: %w", err)
	}
	if err := lost(s, known); err != nil {
		return err
	}
	if err := s.CopyTo(ctx, filepath.Join(args[0], "copy")); !Is(err, Full) {
		return fmt.Errorf("the copy is not said to be too large for the disk: %w", err)
	}
	if err := os.Remove(ballast); err != nil {
		return err
	}
	more, err := fill(s, r.Doc, len(known)+1)
	if known = append(known, more...); !Is(err, Full) || len(more) == 0 {
		return fmt.Errorf("%d more edits, then %w", len(more), err)
	}
	if err := errors.Join(lost(s, known), s.Close()); err != nil {
		return err
	}
	if s, err = Open(ctx, path, time.Now); err != nil {
		return err
	}
	if err := errors.Join(lost(s, known), s.Close()); err != nil {
		return err
	}
	fmt.Println("nothing lost")
	return nil
}

// TestFull_disk: as TestFull, on a disk that is really full. It is mounted in a namespace of the child's own, so that it needs
// no rights and is gone with the child.
func TestFull_disk(t *testing.T) {
	p := prepared(t, "full", t.TempDir())
	p.SysProcAttr = &syscall.SysProcAttr{Cloneflags: syscall.CLONE_NEWUSER | syscall.CLONE_NEWNS,
		UidMappings: []syscall.SysProcIDMap{{ContainerID: 0, HostID: os.Getuid(), Size: 1}},
		GidMappings: []syscall.SysProcIDMap{{ContainerID: 0, HostID: os.Getgid(), Size: 1}}}
	if err := p.Start(); err != nil {
		t.Skipf("the system lets nobody make a disk: %v", err)
	}
	last := ""
	for p.lines.Scan() {
		last = p.lines.Text()
		t.Log(last)
	}
	if err := p.Wait(); err != nil {
		t.Fatal(err)
	}
	if len(last) > 8 && last[:8] == "no disk:" {
		t.Skip(last)
	}
	if last != "nothing lost" {
		t.Errorf("the child ends with %q", last)
	}
}
