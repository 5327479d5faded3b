package store

import "fmt"

// NoProject is the project under which stands what belongs to none, such as the record of a place.
const NoProject int64 = 0

// Project is the identity of a project. Everything else about it is a Thing.
type Project struct {
	ID   int64
	Name string // as it was typed first
}

// Project finds a project by its name, folded as Fold does, or makes it known under that name. A
// blank name is ErrNoName.
func (t *Tx) Project(name string) (Project, error) {
	folded := Fold(name)
	if folded == "" {
		return Project{}, fmt.Errorf("project: %w", ErrNoName)
	}
	var p Project
	found, err := t.row("SELECT id, name FROM projects WHERE folded = ?", []any{folded}, &p.ID, &p.Name)
	if err == nil && !found {
		_, err = t.row("INSERT INTO projects (name, folded) VALUES (?, ?) RETURNING id, name",
			[]any{name, folded}, &p.ID, &p.Name)
	}
	if err != nil {
		return Project{}, fmt.Errorf("project %q: %w", name, err)
	}
	return p, nil
}

// ProjectByID returns the project with this id, or ErrNotFound.
func (t *Tx) ProjectByID(id int64) (Project, error) {
	p := Project{ID: id}
	found, err := t.row("SELECT name FROM projects WHERE id = ?", []any{id}, &p.Name)
	if err == nil && !found {
		err = ErrNotFound
	}
	if err != nil {
		return Project{}, fmt.Errorf("project %d: %w", id, err)
	}
	return p, nil
}

// Projects returns all projects, oldest first, without NoProject.
func (t *Tx) Projects() ([]Project, error) {
	all, err := list(t, func(scan scanner) (p Project, err error) {
		return p, scan(&p.ID, &p.Name)
	}, "SELECT id, name FROM projects WHERE id <> ? ORDER BY id", NoProject)
	if err != nil {
		return nil, fmt.Errorf("projects: %w", err)
	}
	return all, nil
}
