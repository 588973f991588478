package shelf

import (
	"fmt"
	"hash/crc32"
	"os"
	"path/filepath"
	"sync"

	"github.com/adrg/xdg"
)

// soundDir is where the sounds are written: the platform's cache, else a folder of this run alone.
var soundDir = sync.OnceValues(func() (string, error) {
	dir := filepath.Join(xdg.CacheHome, "vatside")
	if os.MkdirAll(dir, 0o755) == nil && writable(dir) {
		return dir, nil
	}
	return os.MkdirTemp("", "vatside-sound-")
})

// writable tells whether a file can be made in a folder.
func writable(dir string) bool {
	f, err := os.CreateTemp(dir, ".try-*")
	if err != nil {
		return false
	}
	return f.Close() == nil && os.Remove(f.Name()) == nil
}

// Sound is the path of a WAV that a player can be given. It is written once; its name carries its checksum, so that
// the sounds of two versions do not mix.
func (h Home) Sound(name string, data []byte) (string, error) {
	dir, err := soundDir()
	if err != nil {
		return "", fmt.Errorf("no folder for sounds: %w", err)
	}
	path := filepath.Join(dir, fmt.Sprintf("%s-%08x.wav", Slug(name), crc32.ChecksumIEEE(data)))
	if info, err := os.Stat(path); err == nil && info.Size() == int64(len(data)) {
		return path, nil
	}
	if err := replace(path, data); err != nil {
		return "", fmt.Errorf("a sound cannot be written: %w", err)
	}
	return path, nil
}
