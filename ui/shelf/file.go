package shelf

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"syscall"
	"time"
)

// file is what a writer needs of a file. Tests put failing disks behind it.
type file interface {
	io.WriterAt
	Sync() error
	Truncate(size int64) error
	Stat() (fs.FileInfo, error)
	Close() error
}

// opener opens a file to be written; flag is os.O_CREATE|os.O_EXCL for a new one, 0 for one that is there.
type opener func(path string, flag int) (file, error)

// openFile is the opener of real disks. Not O_APPEND: Windows could not cut such a file off again.
func openFile(path string, flag int) (file, error) {
	f, err := os.OpenFile(path, os.O_RDWR|flag, 0o644)
	if err != nil {
		return nil, err
	}
	return f, nil
}

// writeAll is one write; one that was short is an error.
func writeAll(f file, data []byte, at int64) error {
	n, err := f.WriteAt(data, at)
	if err == nil && n < len(data) {
		err = io.ErrShortWrite
	}
	return err
}

// makeDir makes a folder and its parents, each on disk before the next is made in it.
func makeDir(dir string) error {
	_, err := makeDirs(dir)
	return err
}

// makeDirs is makeDir, and gives the folders that were not there, the outermost first.
func makeDirs(dir string) (made []string, err error) {
	if isFolder(dir) {
		return nil, nil
	}
	parent := filepath.Dir(dir)
	if parent != dir {
		if made, err = makeDirs(parent); err != nil {
			return made, err
		}
	}
	switch err := os.Mkdir(dir, 0o755); {
	case err == nil:
		made = append(made, dir)
	case !errors.Is(err, fs.ErrExist):
		return made, fmt.Errorf("a folder cannot be made: %w", err)
	}
	return made, syncDir(parent)
}

// isFolder tells of a folder, or of a link to one.
func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}

// gone tells that nothing is there, not even a link that leads nowhere.
func gone(path string) bool {
	_, err := os.Lstat(path)
	return errors.Is(err, fs.ErrNotExist)
}

// unmake takes away folders that makeDirs made for nothing. One that is not empty stays: it is somebody's.
func unmake(made []string) {
	for _, dir := range slices.Backward(made) {
		if os.Remove(dir) != nil {
			return
		}
	}
}

// syncDir puts the names in a folder on disk. Windows has no such call and needs none; some network disks refuse it.
func syncDir(dir string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	err = d.Sync()
	if errors.Is(err, syscall.EINVAL) || errors.Is(err, syscall.ENOTSUP) {
		err = nil
	}
	return errors.Join(err, d.Close())
}

// replace puts a whole new file in the place of an old one, so that a kill leaves the one or the other.
func replace(path string, data []byte) error {
	dir := filepath.Dir(path)
	if err := makeDir(dir); err != nil {
		return err
	}
	if err := swapIn(path, "."+filepath.Base(path)+"-*", data, (*os.File).Sync); err != nil {
		return err
	}
	return syncDir(dir)
}

// swapIn writes a new file beside the place it is for, under a name by the pattern, and once it is synced renames it.
func swapIn(path, pattern string, data []byte, sync func(*os.File) error) error {
	f, err := os.CreateTemp(filepath.Dir(path), pattern)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil {
		err = sync(f)
	}
	if err = errors.Join(err, f.Close()); err == nil {
		err = rename(f.Name(), path)
	}
	if err != nil {
		_ = os.Remove(f.Name()) // the temporary file is ours; the error that counts is the first one
	}
	return err
}

// How often a name is given anew where a program may have the file open, and how long is waited between two tries.
const (
	renameTries = 50
	renamePause = 10 * time.Millisecond
)

// rename gives a file another name, in the place of a file that has it.
func rename(from, to string) error { return renamed(os.Rename, held, from, to) }

// renamed waits half a second for programs that have one of the two files open, as those that look have for an instant.
func renamed(rename func(from, to string) error, held func(error) bool, from, to string) error {
	err := rename(from, to)
	for n := 1; n < renameTries && err != nil && held(err); n++ {
		pause, done := context.WithTimeout(context.Background(), renamePause)
		<-pause.Done()
		done()
		err = rename(from, to)
	}
	return err
}

// readDir reads a folder. Tests count the folders that are read.
var readDir = os.ReadDir

// list reads a folder; one that is not there is empty.
func list(dir string) ([]fs.DirEntry, error) {
	entries, err := readDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return entries, fmt.Errorf("a folder cannot be read: %w", err)
	}
	return entries, nil
}

// sameMode has a copy be read by nobody who cannot read what it is of, where the disk knows of such a thing.
func sameMode(path, of string) {
	if info, err := os.Stat(of); err == nil {
		_ = os.Chmod(path, info.Mode().Perm()) // a disk without modes has nothing to keep
	}
}
