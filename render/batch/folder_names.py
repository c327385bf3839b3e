"""Names of the rows' folders: safe on any machine, and no two alike. Imports ``files``."""

from render.files import LONGEST_NAME, safe_name


class FolderNames:
    """Gives out names, in the order of the rows, and remembers them."""

    def __init__(self) -> None:
        self._given: set[str] = set()

    def of(self, label: str, line: int) -> tuple[str, bool]:
        """Return a row's name, and whether another row has its label already.

        Named for the label, else for the row's line; a label that has been there takes the
        line behind it.
        """
        row = f"row-{line}"
        wanted = safe_name(label) if any(c.isalnum() for c in label) else row
        name, count = wanted, 0
        while name in self._given:
            behind = f"-{row}" + (f"-{count}" if count else "")
            name = wanted[: LONGEST_NAME - len(behind)].rstrip("-") + behind
            count += 1
        self._given.add(name)
        return name, name != wanted
