package shelf

import "golang.org/x/sys/unix"

// remote tells of a disk that another machine may write to: the kernel notifies only of what this machine does. FUSE is
// counted as one, for sshfs.
func remote(dir string) bool {
	var s unix.Statfs_t
	if unix.Statfs(dir, &s) != nil {
		return false
	}
	switch uint32(s.Type) {
	case unix.NFS_SUPER_MAGIC, unix.SMB_SUPER_MAGIC, unix.SMB2_SUPER_MAGIC, unix.CIFS_SUPER_MAGIC, unix.V9FS_MAGIC, unix.AFS_SUPER_MAGIC,
		unix.CODA_SUPER_MAGIC, unix.CEPH_SUPER_MAGIC, unix.FUSE_SUPER_MAGIC:
		return true
	}
	return false
}
