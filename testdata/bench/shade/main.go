// Command shade plays the claims of model/shade on simulated vats and prints the tables, last the priors with their evidence. With 300 vats
// a row it takes some minutes. The study itself stands among the tests of model/shade, which play a small run of it each time.
//
//	go run ./testdata/bench/shade [-n 1000]
//
// What it prints with 300 vats a row, as columns: in, outcomes within the 80 % range, of 100, after 1 to 8 and 9 to 16 dips; dE, CIEDE2000
// of the likely colour from the piece as read, median and nine in ten; ±1, the advised number right or one off, of 100, for wishes of up to
// 8 dips; said, what the answers say of that; best, what an answer could do that knows the form, the priors and the noise; seen, ±1 of the
// wishes for which a dip less and a dip more are seen apart; held, the right number within the answer's own 80 %.
//
//	Forms that the model has
//	truth                    swatches                 in  -16           dE    ±1 said best seen  held
//	power                    none                     79   81   8.4 / 20.0
//	power                    1 (2 dips)               81   83   1.7 /  4.9    82   72        88    94
//	power                    3 (1, 2, 4 dips)         82   85   1.2 /  3.1    87   83   87   94    97
//	power                    4 (1, 2, 4, 8 dips)      81   82   1.1 /  2.9    89   88   89   97    98
//	filling                  none                     79   79   7.4 / 22.3
//	filling                  1 (2 dips)               78   73   1.8 /  4.9    73   84        80    90
//	filling                  3 (1, 2, 4 dips)         81   81   1.2 /  3.3    88   85   86   94    96
//	filling                  4 (1, 2, 4, 8 dips)      83   82   1.0 /  2.7    91   86   90   97   100
//	two-stage                none                     84   84   7.7 / 19.9
//	two-stage                1 (2 dips)               84   87   1.6 /  4.2    76   81        82    95
//	two-stage                3 (1, 2, 4 dips)         81   82   1.2 /  3.1    88   85   88   93    96
//	two-stage                4 (1, 2, 4, 8 dips)      81   81   1.1 /  2.7    93   88   92   97    98
//	Forms that it has not, looked at while its priors were chosen
//	truth                    swatches                 in  -16           dE    ±1 said best seen  held
//	saturating by the cloth  none                     82   84   8.4 / 21.6
//	saturating by the cloth  1 (2 dips)               78   71   1.9 /  5.1    73   84        83    90
//	saturating by the cloth  3 (1, 2, 4 dips)         78   74   1.4 /  3.6    84   87   86   94    93
//	saturating by the cloth  4 (1, 2, 4, 8 dips)      82   83   1.1 /  2.9    86   86   86   99    98
//	surface and diffusion    none                     80   81   8.7 / 22.1
//	surface and diffusion    1 (2 dips)               87   95   1.5 /  3.8    80   81        85    98
//	surface and diffusion    3 (1, 2, 4 dips)         83   91   1.2 /  3.1    93   83   93   98    99
//	surface and diffusion    4 (1, 2, 4, 8 dips)      80   82   1.1 /  2.7    91   88   93   97    98
//	exponent 0.87            none                     78   78   8.6 / 23.0
//	exponent 0.87            1 (2 dips)               86   95   1.6 /  4.1    77   82        81    98
//	exponent 0.87            3 (1, 2, 4 dips)         84   91   1.2 /  2.9    90   84   94   94    98
//	exponent 0.87            4 (1, 2, 4, 8 dips)      81   85   1.0 /  2.7    94   89   95   97    99
//	exponent 1.27            none                     79   83   7.7 / 18.9
//	exponent 1.27            1 (2 dips)               85   86   1.7 /  4.6    85   68        94    97
//	exponent 1.27            3 (1, 2, 4 dips)         82   82   1.2 /  3.1    89   85   92   95    96
//	exponent 1.27            4 (1, 2, 4, 8 dips)      83   81   1.1 /  2.6    90   89   91   97    99
//	Forms that it has not, used only to judge
//	truth                    swatches                 in  -16           dE    ±1 said best seen  held
//	Langmuir                 none                     84   85   8.4 / 20.5
//	Langmuir                 1 (2 dips)               65   54   2.4 /  6.3    67   88        76    80
//	Langmuir                 3 (1, 2, 4 dips)         79   82   1.3 /  3.7    81   85   85   90    94
//	Langmuir                 4 (1, 2, 4, 8 dips)      83   84   1.1 /  2.9    83   84   88   95    96
//	falling level            none                     80   84   8.3 / 21.5
//	falling level            1 (2 dips)               88   94   1.4 /  3.6    83   80        87    99
//	falling level            3 (1, 2, 4 dips)         84   89   1.1 /  2.8    93   84   93   98    99
//	falling level            4 (1, 2, 4, 8 dips)      81   85   1.0 /  2.6    94   89   94   98    98
//	exponent 0.8             none                     75   76   9.3 / 23.7
//	exponent 0.8             1 (2 dips)               78   88   2.0 /  4.9    72   85        75    94
//	exponent 0.8             3 (1, 2, 4 dips)         82   88   1.3 /  3.2    88   84   93   91    96
//	exponent 0.8             4 (1, 2, 4, 8 dips)      83   87   1.0 /  2.6    94   87   96   98    99
//	exponent 1.35            none                     81   86   7.7 / 18.5
//	exponent 1.35            1 (2 dips)               79   77   2.1 /  5.3    78   67        87    94
//	exponent 1.35            3 (1, 2, 4 dips)         82   82   1.2 /  3.1    84   83   87   93    96
//	exponent 1.35            4 (1, 2, 4, 8 dips)      82   82   1.1 /  2.6    90   89   91   98    98
//	two sites                none                     75   73  10.3 / 23.7
//	two sites                1 (2 dips)               76   79   2.1 /  5.0    71   86        74    92
//	two sites                3 (1, 2, 4 dips)         82   89   1.2 /  3.1    86   84   90   90    97
//	two sites                4 (1, 2, 4, 8 dips)      81   85   1.1 /  2.8    89   87   91   94    98
//
// From three swatches on the ranges and the colour hold on every form. The advised number comes within a few of the best that could be: with
// swatches of 1, 2 and 4 dips an answer that knows everything but the vat itself is right or one off in 85 to 95 of 100, with one of 8
// dips too in 86 to 96, so that nine of ten cannot be had of each form; an answer that may be more than one off says so. After one
// swatch all of it holds only as far as the swatch reaches.
//
// Deep indigo comes out at a hue of 262–267° for L* 40 to 26 on white cotton (published 255–275°).
package main

import (
	"bufio"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"time"

	"example.org/vatside/testdata/bench/internal/apart"
)

func main() {
	n := flag.Int("n", 300, "simulated vats a row")
	flag.Parse()
	apart.End("shade", tables(*n))
}

// tables runs the test that prints them, and passes on what is not the test runner's own.
func tables(n int) error {
	begun := time.Now()
	run := exec.Command("go", "test", "-count=1", "-v", "-run", "^TestTables$", "example.org/vatside/model/shade", "-args", fmt.Sprintf("-tables=%d", n))
	run.Stderr = os.Stderr
	out, err := run.StdoutPipe()
	if err != nil {
		return err
	}
	if err := run.Start(); err != nil {
		return err
	}
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		line := lines.Text()
		switch word, _, _ := strings.Cut(line, " "); {
		case word == "===", word == "---", word == "PASS", strings.HasPrefix(line, "ok  "):
		default:
			fmt.Println(line)
		}
	}
	if err := run.Wait(); err != nil {
		return err
	}
	fmt.Printf("\n%.0f s\n", time.Since(begun).Seconds())
	return nil
}
