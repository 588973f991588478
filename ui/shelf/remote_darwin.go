package shelf

import "golang.org/x/sys/unix"

// remote tells of a disk that another machine may write to: the kernel notifies only of what this machine does.
func remote(dir string) bool {
	var s unix.Statfs_t
	return unix.Statfs(dir, &s) == nil && s.Flags&unix.MNT_LOCAL == 0
}
