// Command train fits the weights that package odds keeps to the example messages, and writes
// them. Run it from the top of the repository after the messages have changed:
//
//	go run ./commands/odds/train
//	go run ./commands/odds/train -folds 5   # only measures, by leaving out a fifth in turn
package main

import (
	"bytes"
	"compress/gzip"
	"encoding/gob"
	"flag"
	"fmt"
	"os"

	"fettle/commands/odds/training"
)

func main() {
	out := flag.String("out", "commands/odds/weights.gob.gz", "the file to write")
	folds := flag.Int("folds", 0, "leave out one in so many messages in turn and say how many of them are told right")
	flag.Parse()
	if err := run(*out, *folds); err != nil {
		fmt.Fprintln(os.Stderr, "train:", err)
		os.Exit(1)
	}
}

func run(out string, folds int) error {
	examples, err := training.Corpus(".")
	if err != nil {
		return err
	}
	if folds > 1 {
		got, err := training.Folds(examples, folds)
		if err != nil {
			return err
		}
		fmt.Printf("%d of %d left out messages told right (%.1f %%)\n", got, len(examples), 100*float64(got)/float64(len(examples)))
		return nil
	}
	m, err := training.Train(examples)
	if err != nil {
		return err
	}
	m.Source = training.Sum(examples)
	var b bytes.Buffer
	zipped, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return err
	}
	if err := gob.NewEncoder(zipped).Encode(m); err != nil {
		return err
	}
	if err := zipped.Close(); err != nil {
		return err
	}
	fmt.Printf("%d messages, %d topics, %d bytes\n", len(examples), len(m.Topics), b.Len())
	return os.WriteFile(out, b.Bytes(), 0o644)
}
