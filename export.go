package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"fettle/bot/export"
	"fettle/commands"
	"fettle/store"
)

// exportCommand writes a project's book.
func exportCommand(s *settings) *cobra.Command {
	var format, project, out string
	c := &cobra.Command{
		Use: "export --format md|csv|html|pdf|json [--project NAME] [--out FILE] [--db FILE]", Short: "The project's book: parts, stock, plan, log",
		Args: usage(cobra.NoArgs), DisableFlagsInUseLine: true,
		RunE: func(c *cobra.Command, _ []string) error {
			if !slices.Contains(export.Formats(), format) {
				return usageError{fmt.Errorf("--format %q: it may be %s", format, strings.Join(export.Formats(), ", "))}
			}
			var b bytes.Buffer
			if err := s.export(c, &b, format, project); err != nil {
				return err
			}
			if out == "" {
				_, err := c.OutOrStdout().Write(b.Bytes())
				return err
			}
			if err := os.WriteFile(out, b.Bytes(), 0o600); err != nil {
				return usageError{fmt.Errorf("the book can't be written to %s: %w", out, err)}
			}
			return nil
		},
	}
	c.Flags().StringVar(&format, "format", "md", "md, csv, html, pdf or json")
	c.Flags().StringVar(&project, "project", "workshop", "the project")
	c.Flags().StringVar(&out, "out", "", "the file to write; without it, standard output")
	return c
}

func (s *settings) export(c *cobra.Command, b *bytes.Buffer, format, project string) error {
	now, err := clock()
	if err != nil {
		return err
	}
	zone, err := zone()
	if err != nil {
		return err
	}
	db, err := s.open(c.Context(), now)
	if err != nil {
		return err
	}
	defer db.Close()
	err = db.Read(c.Context(), func(tx *store.Tx) error {
		p, err := projectNamed(tx, project)
		if err != nil {
			return err
		}
		paper, err := commands.WritePaper(tx, p, now().In(zone))
		if err != nil {
			return err
		}
		return export.Write(b, format, paper)
	})
	return err
}

// projectNamed finds a project that there is; an export makes none.
func projectNamed(tx *store.Tx, name string) (store.Project, error) {
	all, err := tx.Projects()
	if err != nil {
		return store.Project{}, err
	}
	names := make([]string, len(all))
	for i, p := range all {
		if store.Fold(p.Name) == store.Fold(name) {
			return p, nil
		}
		names[i] = p.Name
	}
	if len(all) == 0 {
		return store.Project{}, usageError{errors.New("there is no project in this database yet")}
	}
	return store.Project{}, usageError{fmt.Errorf("there is no project %q; there are: %s", name, strings.Join(names, ", "))}
}
