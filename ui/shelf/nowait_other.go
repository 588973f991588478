//go:build !unix

package shelf

// noWait is not needed where a folder holds no pipes.
const noWait = 0
