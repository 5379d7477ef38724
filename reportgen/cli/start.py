"""`reportgen start`: lay out a lifter's folder with commented blanks, or the demo squad."""

from __future__ import annotations

from pathlib import Path

import click


@click.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--demo", is_flag=True, help="Lay out the demo squad of three invented lifters instead.")
def command(folder: Path, demo: bool) -> None:
    """Lay out FOLDER for one lifter: a commented lifter.toml, and files that hold only their headings.

    What is already there is never touched.
    """
    from reportgen.cli import blanks

    written, kept = blanks.lay_demo(folder) if demo else blanks.lay_lifter(folder)
    for path in written:
        click.echo(f"{path}: written")
    for path in kept:
        click.echo(f"{path}: was there, kept as it is")
    if demo:
        click.echo(f"\nNext: reportgen write {folder}")
    else:
        click.echo(
            f"\nNext: fill in {folder / 'lifter.toml'} and {folder / 'training.csv'}, "
            f"delete the files you don't need, then: reportgen check {folder}"
        )
