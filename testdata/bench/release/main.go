// Command release makes the archives of a release, reads each back and prints what is in it.
//
//	go run ./testdata/bench/release [-out DIR] [-most 25]
//
// One archive for Linux, macOS and Windows on amd64 and arm64 each, without cgo and stripped: the program, the README and the
// manual page, with the commit's time on each file, so that the same source gives the same bytes. SHA256SUMS stands beside them.
// Only the archive of this machine is also run (--version, rehearse at full speed, now in an empty home); of the others it is
// proven that they are for the system they name and have no cgo, not that they work there. A fault ends it with 1.
package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"debug/buildinfo"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"time"
)

func main() {
	out := flag.String("out", "", "folder for the archives; empty: a temporary one, removed at the end")
	most := flag.Float64("most", 25, "size of a program at most, MB")
	flag.Parse()
	if flag.NArg() > 0 {
		flag.Usage()
		os.Exit(2)
	}
	if err := release(*out, *most); err != nil {
		fmt.Fprintln(os.Stderr, "release:", err)
		os.Exit(1)
	}
}

func release(out string, most float64) error {
	if out == "" {
		dir, err := os.MkdirTemp("", "release-")
		if err != nil {
			return err
		}
		defer os.RemoveAll(dir)
		out = dir
	}
	if err := os.MkdirAll(out, 0o755); err != nil {
		return err
	}
	work, err := os.MkdirTemp("", "release-build-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(work)
	own := filepath.Join(work, "own")
	if err := build(own, runtime.GOOS, runtime.GOARCH); err != nil {
		return err
	}
	version, err := output(own, "--version")
	if err != nil {
		return err
	}
	manual, err := output(own, "man")
	if err != nil {
		return err
	}
	readme, err := os.ReadFile("README.md")
	if err != nil {
		return err
	}
	when, err := committed()
	if err != nil {
		return err
	}
	fmt.Printf("%s, files of %s\n", strings.TrimSpace(version), when.Format(time.RFC3339))
	number := strings.Fields(version)[1]
	var sums strings.Builder
	for _, goos := range []string{"linux", "darwin", "windows"} {
		for _, goarch := range []string{"amd64", "arm64"} {
			name := fmt.Sprintf("vatside-%s-%s-%s", number, goos, goarch)
			program := filepath.Join(work, name)
			if err := build(program, goos, goarch); err != nil {
				return err
			}
			text, err := os.ReadFile(program)
			if err != nil {
				return err
			}
			if mb := float64(len(text)) / 1e6; mb > most {
				return fmt.Errorf("%s has %.1f MB; at most %.1f is wanted", name, mb, most)
			}
			binary := "vatside"
			if goos == "windows" {
				binary += ".exe"
			}
			files := []file{{binary, 0o755, text}, {"README.md", 0o644, readme}, {"vatside.1", 0o644, []byte(manual)}}
			archive, err := pack(name, goos, files, when)
			if err != nil {
				return err
			}
			ending := ".tar.gz"
			if goos == "windows" {
				ending = ".zip"
			}
			path := filepath.Join(out, name+ending)
			if err := os.WriteFile(path, archive, 0o644); err != nil {
				return err
			}
			tried, err := check(path, name, goos, goarch, files, work)
			if err != nil {
				return fmt.Errorf("%s: %w", filepath.Base(path), err)
			}
			fmt.Printf("%-38s %5.1f MB, program %5.1f MB, %s\n", filepath.Base(path), float64(len(archive))/1e6, float64(len(text))/1e6, tried)
			fmt.Fprintf(&sums, "%x  %s\n", sha256.Sum256(archive), filepath.Base(path))
		}
	}
	return os.WriteFile(filepath.Join(out, "SHA256SUMS"), []byte(sums.String()), 0o644)
}

// file is one file of an archive.
type file struct {
	name string
	mode fs.FileMode
	text []byte
}

func build(path, goos, goarch string) error {
	c := exec.Command("go", "build", "-trimpath", "-ldflags", "-s -w", "-o", path, ".")
	c.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS="+goos, "GOARCH="+goarch)
	if said, err := c.CombinedOutput(); err != nil {
		return fmt.Errorf("go build for %s/%s: %w\n%s", goos, goarch, err, said)
	}
	return nil
}

// output is what a program prints on stdout.
func output(program string, args ...string) (string, error) {
	said, err := exec.Command(program, args...).Output()
	if err != nil {
		return "", fmt.Errorf("%s: %w", strings.Join(args, " "), err)
	}
	return strings.TrimRight(string(said), "\n") + "\n", nil
}

func committed() (time.Time, error) {
	text, err := output("git", "log", "-1", "--format=%ct")
	if err != nil {
		return time.Time{}, err
	}
	sec, err := strconv.ParseInt(strings.TrimSpace(text), 10, 64)
	return time.Unix(sec, 0).UTC(), err
}

// pack makes an archive with one folder of the files.
func pack(folder, goos string, files []file, when time.Time) ([]byte, error) {
	var b bytes.Buffer
	if goos == "windows" {
		w := zip.NewWriter(&b)
		for _, f := range files {
			h := &zip.FileHeader{Name: folder + "/" + f.name, Method: zip.Deflate, Modified: when}
			h.SetMode(f.mode)
			to, err := w.CreateHeader(h)
			if err == nil {
				_, err = to.Write(f.text)
			}
			if err != nil {
				return nil, err
			}
		}
		err := w.Close() // before the bytes are taken: it writes the list of files
		return b.Bytes(), err
	}
	z := gzip.NewWriter(&b)
	w := tar.NewWriter(z)
	for _, f := range files {
		h := &tar.Header{Name: folder + "/" + f.name, Mode: int64(f.mode), Size: int64(len(f.text)), ModTime: when, Format: tar.FormatPAX}
		err := w.WriteHeader(h)
		if err == nil {
			_, err = w.Write(f.text)
		}
		if err != nil {
			return nil, err
		}
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	err := z.Close()
	return b.Bytes(), err
}

// check reads an archive back from disk, and runs its program where it is for this machine.
func check(path, folder, goos, goarch string, want []file, work string) (string, error) {
	got, err := unpack(path)
	if err != nil {
		return "", err
	}
	for _, f := range want {
		if !bytes.Equal(got[folder+"/"+f.name], f.text) {
			return "", fmt.Errorf("%s is not in it as it should be", f.name)
		}
	}
	info, err := buildinfo.Read(bytes.NewReader(want[0].text))
	if err != nil {
		return "", err
	}
	set := map[string]string{}
	for _, s := range info.Settings {
		set[s.Key] = s.Value
	}
	if set["GOOS"] != goos || set["GOARCH"] != goarch || set["CGO_ENABLED"] != "0" {
		return "", fmt.Errorf("its program is for %s/%s, cgo %s", set["GOOS"], set["GOARCH"], set["CGO_ENABLED"])
	}
	if goos != runtime.GOOS || goarch != runtime.GOARCH {
		return "not run: another machine", nil
	}
	dir := filepath.Join(work, "unpacked")
	home := filepath.Join(work, "home")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return "", err
	}
	program := filepath.Join(dir, want[0].name)
	if err := os.WriteFile(program, want[0].text, 0o755); err != nil {
		return "", err
	}
	for _, args := range [][]string{{"--version"}, {"now", "--home", home}, {"rehearse", "--plain", "--speed", "max"}} {
		if _, err := output(program, args...); err != nil {
			return "", err
		}
	}
	return "run here", nil
}

// unpack is the files of an archive by their names.
func unpack(path string) (map[string][]byte, error) {
	out := map[string][]byte{}
	if strings.HasSuffix(path, ".zip") {
		r, err := zip.OpenReader(path)
		if err != nil {
			return nil, err
		}
		defer r.Close()
		for _, f := range r.File {
			in, err := f.Open()
			if err != nil {
				return nil, err
			}
			text, err := io.ReadAll(in)
			in.Close()
			if err != nil {
				return nil, err
			}
			out[f.Name] = text
		}
		return out, nil
	}
	in, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer in.Close()
	z, err := gzip.NewReader(in)
	if err != nil {
		return nil, err
	}
	r := tar.NewReader(z)
	for {
		h, err := r.Next()
		if err == io.EOF {
			return out, nil
		}
		if err != nil {
			return nil, err
		}
		if out[h.Name], err = io.ReadAll(r); err != nil {
			return nil, err
		}
	}
}
