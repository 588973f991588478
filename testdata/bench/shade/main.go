// Command shade plays the claims of model/shade on simulated vats and prints the tables, last the priors with their evidence. With 1,000
// vats a row it takes 8 minutes of a processor. The study itself stands among the tests of model/shade, which play a small run of it each time.
//
//	go run ./testdata/bench/shade [-n 1000]
//
// What it prints with 1,000 vats a row, as columns: in, outcomes within the 80 % range, of 100, after 1 to 8 and 9 to 16 dips; dE, CIEDE2000
// of the likely colour from the piece as read, median and nine in ten; ±1, the advised number right or one off, of 100, for wishes of up to
// 8 dips; said, what the answers say of that; best, what an answer could do that knows the form, the priors and the noise; seen, ±1 of the
// wishes for which a dip less and a dip more are seen apart; held, the right number within the answer's own 80 %.
//
//	Forms that the model has
//	truth                    swatches                 in  -16           dE    ±1 said best seen  held
//	power                    none                     81   83   8.0 / 19.3
//	power                    1 (2 dips)               82   84   1.7 /  4.7    80   72        87    94
//	power                    3 (1, 2, 4 dips)         83   85   1.2 /  3.1    87   84   87   95    97
//	power                    4 (1, 2, 4, 8 dips)      81   83   1.0 /  2.7    89   88   89   97    98
//	filling                  none                     81   78   8.1 / 21.7
//	filling                  1 (2 dips)               79   72   1.8 /  5.0    74   84        80    90
//	filling                  3 (1, 2, 4 dips)         80   77   1.2 /  3.2    86   86   86   93    96
//	filling                  4 (1, 2, 4, 8 dips)      82   81   1.0 /  2.7    89   86   90   97    98
//	two-stage                none                     83   83   8.3 / 20.3
//	two-stage                1 (2 dips)               85   88   1.5 /  4.2    77   80        83    95
//	two-stage                3 (1, 2, 4 dips)         81   83   1.2 /  3.2    87   85   88   93    97
//	two-stage                4 (1, 2, 4, 8 dips)      81   82   1.1 /  2.7    93   88   92   98    98
//	Forms that it has not, looked at while its priors were chosen
//	truth                    swatches                 in  -16           dE    ±1 said best seen  held
//	saturating by the cloth  none                     84   87   8.0 / 20.6
//	saturating by the cloth  1 (2 dips)               76   68   1.9 /  5.3    73   85        82    87
//	saturating by the cloth  3 (1, 2, 4 dips)         79   75   1.3 /  3.6    84   86   86   94    94
//	saturating by the cloth  4 (1, 2, 4, 8 dips)      81   82   1.1 /  2.8    88   87   86   98    98
//	surface and diffusion    none                     82   84   8.3 / 20.9
//	surface and diffusion    1 (2 dips)               86   95   1.5 /  3.9    79   82        83    98
//	surface and diffusion    3 (1, 2, 4 dips)         84   91   1.1 /  2.9    93   83   93   97    99
//	surface and diffusion    4 (1, 2, 4, 8 dips)      81   84   1.1 /  2.7    93   89   93   98    99
//	exponent 0.87            none                     80   80   8.5 / 22.3
//	exponent 0.87            1 (2 dips)               84   95   1.7 /  4.2    77   82        81    98
//	exponent 0.87            3 (1, 2, 4 dips)         84   91   1.1 /  2.9    91   84   94   95    99
//	exponent 0.87            4 (1, 2, 4, 8 dips)      81   86   1.0 /  2.7    94   88   95   98    99
//	exponent 1.27            none                     81   83   7.5 / 18.5
//	exponent 1.27            1 (2 dips)               86   87   1.7 /  4.4    85   68        93    98
//	exponent 1.27            3 (1, 2, 4 dips)         82   83   1.2 /  3.1    88   84   92   95    97
//	exponent 1.27            4 (1, 2, 4, 8 dips)      82   82   1.0 /  2.7    91   89   91   98    98
//	Forms that it has not, used only to judge
//	truth                    swatches                 in  -16           dE    ±1 said best seen  held
//	Langmuir                 none                     84   85   8.5 / 20.8
//	Langmuir                 1 (2 dips)               65   53   2.4 /  6.6    67   88        76    77
//	Langmuir                 3 (1, 2, 4 dips)         79   80   1.3 /  3.7    80   85   85   89    93
//	Langmuir                 4 (1, 2, 4, 8 dips)      83   84   1.1 /  2.9    85   84   88   96    98
//	falling level            none                     83   85   8.1 / 20.6
//	falling level            1 (2 dips)               89   95   1.4 /  3.7    82   80        87    98
//	falling level            3 (1, 2, 4 dips)         84   89   1.1 /  3.0    92   84   93   96    98
//	falling level            4 (1, 2, 4, 8 dips)      81   85   1.0 /  2.7    92   88   94   98    99
//	exponent 0.8             none                     76   77   9.2 / 24.0
//	exponent 0.8             1 (2 dips)               78   89   2.0 /  4.9    69   85        72    94
//	exponent 0.8             3 (1, 2, 4 dips)         83   91   1.2 /  3.1    88   83   93   93    97
//	exponent 0.8             4 (1, 2, 4, 8 dips)      82   86   1.0 /  2.7    93   87   96   97    99
//	exponent 1.35            none                     81   85   7.8 / 18.7
//	exponent 1.35            1 (2 dips)               80   78   2.1 /  5.2    79   67        87    95
//	exponent 1.35            3 (1, 2, 4 dips)         82   81   1.2 /  3.1    85   84   87   93    96
//	exponent 1.35            4 (1, 2, 4, 8 dips)      82   83   1.0 /  2.6    88   88   91   98    98
//	two sites                none                     78   76   9.5 / 23.3
//	two sites                1 (2 dips)               75   79   2.0 /  5.2    70   86        73    92
//	two sites                3 (1, 2, 4 dips)         82   89   1.2 /  3.1    87   85   90   92    97
//	two sites                4 (1, 2, 4, 8 dips)      81   85   1.1 /  2.8    90   87   91   95    98
//
// From three swatches on the ranges and the colour hold on every form. The advised number comes within a few of the best that could be: with
// swatches of 1, 2 and 4 dips an answer that knows everything but the vat itself is right or one off in 85 to 94 of 100, with one of 8
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
	apart.Run("shade", func() bool {
		tables(*n)
		return false
	})
}

// tables runs the test that prints them, and passes on what is not the test runner's own.
func tables(n int) {
	begun := time.Now()
	run := exec.Command("go", "test", "-count=1", "-timeout=0", "-v", "-run", "^TestTables$", "example.org/vatside/model/shade", "-args", fmt.Sprintf("-tables=%d", n))
	run.Stderr = os.Stderr
	lines := bufio.NewScanner(apart.Got(run.StdoutPipe()))
	apart.Must(run.Start())
	for lines.Scan() {
		line := lines.Text()
		switch word, _, _ := strings.Cut(line, " "); {
		case word == "===", word == "---", word == "PASS", strings.HasPrefix(line, "ok  "):
		default:
			fmt.Println(line)
		}
	}
	apart.Must(run.Wait())
	fmt.Printf("\n%.0f s\n", time.Since(begun).Seconds())
}
