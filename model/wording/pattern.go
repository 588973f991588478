package wording

import (
	"regexp"
	"sync"
)

// Pattern is a regular expression that is compiled when it is first asked for: most are never needed in a run, and the
// start of the program does not wait for them. It panics then where the expression is none.
func Pattern(expression string) func() *regexp.Regexp {
	return sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(expression) })
}
