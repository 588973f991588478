package shelf

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"time"

	"example.org/vatside/ui/guard"
)

// What is read at most, of a file of the shelf as of one that was named on the command line: a thousand times a long day.
const readMost = 32 << 20

// argumentWait is how long a pipe that was named on the command line may keep silent.
const argumentWait = 5 * time.Second

// readFile reads a file of the shelf. Only regular files are: what is none is told by what it is, and never waited for.
func readFile(path string) ([]byte, error) {
	data, _, err := readTold(path)
	return data, err
}

// readTold is readFile, and what the system told of the file before it was read.
func readTold(path string) ([]byte, fs.FileInfo, error) {
	info, err := os.Stat(path)
	if err != nil {
		return nil, nil, err
	}
	if err := regular(path, info); err != nil {
		return nil, nil, err
	}
	f, err := openToRead(path)
	if err != nil {
		return nil, nil, err
	}
	defer f.Close()
	if info, err = f.Stat(); err != nil { // it may be another by now
		return nil, nil, err
	}
	if err := regular(path, info); err != nil {
		return nil, nil, err
	}
	if f.SetReadDeadline(time.Time{}) == nil { // the system tells when it can be read, as it does of no file on a disk
		return nil, nil, fmt.Errorf("%s is a device, where a file should be", path)
	}
	data, err := atMost(path, f, info.Size())
	return data, info, err
}

// openToRead opens a file of the shelf. Tests count the files that are opened.
var openToRead = func(path string) (*os.File, error) { return os.OpenFile(path, os.O_RDONLY|noWait, 0) }

// regular says what stands in the place of a file, or that it is too long; nil for a file.
func regular(path string, info fs.FileInfo) error {
	if what := called(info.Mode()); what != "" {
		return fmt.Errorf("%s is %s, where a file should be", path, what)
	}
	if info.Size() > readMost {
		return tooLong(path)
	}
	return nil
}

// called is what a thing in a folder is, if it is no file.
func called(m fs.FileMode) string {
	switch {
	case m.IsRegular():
		return ""
	case m.IsDir():
		return "a folder"
	case m&fs.ModeNamedPipe != 0:
		return "a pipe"
	case m&fs.ModeSocket != 0:
		return "a socket"
	}
	return "a device"
}

func tooLong(path string) error {
	return fmt.Errorf("%s is longer than 32 MB, which no file of a vat is: see what it is", path)
}

// atMost reads all of a stream that is no longer than readMost; size is what it is thought to have.
func atMost(path string, r io.Reader, size int64) ([]byte, error) {
	data := make([]byte, 0, min(max(size, 0), readMost)+1)
	for {
		n, err := r.Read(data[len(data):cap(data)])
		data = data[:len(data)+n]
		switch {
		case err == io.EOF:
			return data, nil
		case err != nil:
			return nil, err
		case len(data) > readMost:
			return nil, tooLong(path)
		case len(data) == cap(data):
			data = append(data, 0)[:len(data)]
		}
	}
}

// ReadArgument reads a file that was named on the command line or typed: one of the disk, or a pipe, for as long as it has
// something to say within 5 s. The error is one sentence that names it; what is not there is fs.ErrNotExist too.
func ReadArgument(path string) ([]byte, error) {
	ctx, done := context.WithTimeout(context.Background(), argumentWait)
	defer done()
	return readArgument(ctx, path)
}

// readArgument gives up when the context ends. What it then still waits for ends with the program.
func readArgument(ctx context.Context, path string) ([]byte, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, noFile(path)
	case err != nil:
		return nil, unreadable(path, err)
	case info.IsDir():
		return nil, fmt.Errorf("%s is a folder: name a file in it", path)
	case info.Mode()&(fs.ModeNamedPipe|fs.ModeCharDevice) == 0:
		data, err := readFile(path)
		if why := (*fs.PathError)(nil); errors.As(err, &why) {
			err = unreadable(path, err)
		}
		return data, err
	}
	type answer struct {
		data []byte
		err  error
	}
	got := make(chan answer, 1)
	guard.Go("argument", func() {
		f, err := os.Open(path) // of a pipe it waits for its writer
		if err != nil {
			got <- answer{err: unreadable(path, err)}
			return
		}
		data, err := atMost(path, f, 0)
		_ = f.Close() // only read
		if why := (*fs.PathError)(nil); errors.As(err, &why) {
			err = unreadable(path, err)
		}
		got <- answer{data, err}
	})
	select {
	case a := <-got:
		return a.data, a.err
	case <-ctx.Done():
		return nil, fmt.Errorf("%s did not end within %d s: name a file, or a pipe that somebody writes to", path, argumentWait/time.Second)
	}
}

// unreadable is why a named file cannot be read, with its name once.
func unreadable(path string, err error) error {
	if why := (*fs.PathError)(nil); errors.As(err, &why) {
		err = why.Err
	}
	return fmt.Errorf("%s cannot be read: %w", path, err)
}

// noFile is the name of a file that is not there.
type noFile string

// Error is the sentence.
func (f noFile) Error() string { return "there is no file " + string(f) }

// Is makes it a fs.ErrNotExist.
func (noFile) Is(err error) bool { return err == fs.ErrNotExist }
