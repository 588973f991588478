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

	"example.org/vatside/testdata/bench/internal/apart"
)

func main() {
	out := flag.String("out", "", "folder for the archives; empty: a temporary one, removed at the end")
	most := flag.Float64("most", 25, "size of a program at most, MB")
	flag.Parse()
	if flag.NArg() > 0 {
		flag.Usage()
		os.Exit(2)
	}
	apart.Run("release", func() bool {
		release(*out, *most)
		return false
	})
}

func release(out string, most float64) {
	work, done := apart.Folder("release-", os.RemoveAll)
	defer done()
	if out == "" {
		out = filepath.Join(work, "archives")
	}
	own := filepath.Join(work, "own")
	build(own, runtime.GOOS, runtime.GOARCH)
	version := output(own, "--version")
	when := time.Unix(apart.Got(strconv.ParseInt(strings.TrimSpace(output("git", "log", "-1", "--format=%ct")), 10, 64)), 0).UTC()
	fmt.Printf("%s, files of %s\n", strings.TrimSpace(version), when.Format(time.RFC3339))
	texts := []file{{"README.md", 0o644, apart.Got(os.ReadFile("README.md"))}, {"vatside.1", 0o644, []byte(output(own, "man"))}}
	number := strings.Fields(version)[1]
	var sums strings.Builder
	for _, goos := range []string{"linux", "darwin", "windows"} {
		binary, ending, pack, unpack := "vatside", ".tar.gz", tarred, untarred
		if goos == "windows" {
			binary, ending, pack, unpack = "vatside.exe", ".zip", zipped, unzipped
		}
		for _, goarch := range []string{"amd64", "arm64"} {
			name := fmt.Sprintf("vatside-%s-%s-%s", number, goos, goarch)
			program := filepath.Join(work, name)
			build(program, goos, goarch)
			text := apart.Got(os.ReadFile(program))
			if mb := float64(len(text)) / 1e6; mb > most {
				apart.Must(fmt.Errorf("%s has %.1f MB; at most %.1f is wanted", name, mb, most))
			}
			files := append([]file{{binary, 0o755, text}}, texts...)
			for i := range files {
				files[i].name = name + "/" + files[i].name
			}
			archive := pack(files, when)
			path := filepath.Join(out, name+ending)
			apart.Write(path, archive)
			tried, err := check(unpack(path), files, goos, goarch, work)
			if err != nil {
				apart.Must(fmt.Errorf("%s: %w", filepath.Base(path), err))
			}
			fmt.Printf("%-38s %5.1f MB, program %5.1f MB, %s\n", filepath.Base(path), float64(len(archive))/1e6, float64(len(text))/1e6, tried)
			fmt.Fprintf(&sums, "%x  %s\n", sha256.Sum256(archive), filepath.Base(path))
		}
	}
	apart.Write(filepath.Join(out, "SHA256SUMS"), []byte(sums.String()))
}

// file is one file of an archive.
type file struct {
	name string
	mode fs.FileMode
	text []byte
}

func build(path, goos, goarch string) {
	c := exec.Command("go", "build", "-trimpath", "-ldflags", "-s -w", "-o", path, ".")
	c.Env = append(os.Environ(), "CGO_ENABLED=0", "GOOS="+goos, "GOARCH="+goarch)
	apart.Got(apart.Said(c))
}

// output is what a program prints on stdout.
func output(program string, args ...string) string {
	said, err := exec.Command(program, args...).Output()
	if err != nil {
		apart.Must(fmt.Errorf("%s: %w", strings.Join(args, " "), err))
	}
	return strings.TrimRight(string(said), "\n") + "\n"
}

func zipped(files []file, when time.Time) []byte {
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, f := range files {
		h := &zip.FileHeader{Name: f.name, Method: zip.Deflate, Modified: when}
		h.SetMode(f.mode)
		apart.Got(apart.Got(w.CreateHeader(h)).Write(f.text))
	}
	apart.Must(w.Close())
	return b.Bytes()
}

func tarred(files []file, when time.Time) []byte {
	var b bytes.Buffer
	z := gzip.NewWriter(&b)
	w := tar.NewWriter(z)
	for _, f := range files {
		apart.Must(w.WriteHeader(&tar.Header{Name: f.name, Mode: int64(f.mode), Size: int64(len(f.text)), ModTime: when, Format: tar.FormatPAX}))
		apart.Got(w.Write(f.text))
	}
	apart.Must(w.Close())
	apart.Must(z.Close())
	return b.Bytes()
}

// check looks at what was read back of an archive, and runs its program where it is for this machine.
func check(got map[string][]byte, want []file, goos, goarch, work string) (string, error) {
	for _, f := range want {
		if !bytes.Equal(got[f.name], f.text) {
			return "", fmt.Errorf("%s is not in it as it should be", f.name)
		}
	}
	set := map[string]string{}
	for _, s := range apart.Got(buildinfo.Read(bytes.NewReader(want[0].text))).Settings {
		set[s.Key] = s.Value
	}
	if set["GOOS"] != goos || set["GOARCH"] != goarch || set["CGO_ENABLED"] != "0" {
		return "", fmt.Errorf("its program is for %s/%s, cgo %s", set["GOOS"], set["GOARCH"], set["CGO_ENABLED"])
	}
	if goos != runtime.GOOS || goarch != runtime.GOARCH {
		return "not run: another machine", nil
	}
	program := filepath.Join(work, "unpacked", filepath.Base(want[0].name))
	apart.Write(program, want[0].text)
	apart.Must(os.Chmod(program, 0o755))
	for _, args := range [][]string{{"--version"}, {"now", "--home", filepath.Join(work, "home")}, {"rehearse", "--plain", "--speed", "max"}} {
		output(program, args...)
	}
	return "run here", nil
}

// unzipped is the files of an archive by their names.
func unzipped(path string) map[string][]byte {
	out := map[string][]byte{}
	r := apart.Got(zip.OpenReader(path))
	defer r.Close()
	for _, f := range r.File {
		out[f.Name] = apart.Got(io.ReadAll(apart.Got(f.Open())))
	}
	return out
}

// untarred is the same.
func untarred(path string) map[string][]byte {
	out := map[string][]byte{}
	in := apart.Got(os.Open(path))
	defer in.Close()
	r := tar.NewReader(apart.Got(gzip.NewReader(in)))
	for {
		h, err := r.Next()
		if err == io.EOF {
			return out
		}
		apart.Must(err)
		out[h.Name] = apart.Got(io.ReadAll(r))
	}
}
