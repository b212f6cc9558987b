"""The movements of a line: reps before and behind them, complexes, lists of positions."""

from .items import Amount
from .names import PartDraft
from .timing import TimeForms

_LINKING = frozenset(("into", "followed", "plus", "then"))


class PartForms(TimeForms):
    """Reads movements."""

    def _name(self, i: int, amount: Amount | None = None) -> bool:
        got = self.names.name(self.line, self.toks, i) or self._letter(i)
        if got is None:
            return False
        draft, nxt = got
        parts = self.scan.parts
        if parts and not self._joined(i):
            if (
                not parts[0].movement
                and draft.movement
                and not self.scan.items
                and self.kinds[i - 1] in (":", "-")
            ):
                self.scan.leftover.append((parts[0].start, parts[0].end))
                parts.clear()
            elif draft.movement and draft.kind == "movement":
                if draft.movement == parts[0].movement and not draft.variant and len(parts) == 1:
                    self.scan.leftover.append((draft.start, draft.end))
                    self.i = nxt
                    return True
                self.doubt("second movement", i, nxt - 1)
                self.skipped += range(i, nxt)
                self.i = nxt
                return True
            else:
                if draft.odd and self.kinds[i - 1] in ("/", "&", ","):
                    self.doubt("second movement", i, nxt - 1)
                return False
        if not draft.movement and self.scan.items and not amount and not self._name_may_follow(i):
            return False
        if not draft.movement and self.bracket_depth > 0:
            return False
        if amount is not None:
            draft.reps_low, draft.reps_high, draft.or_more = amount
        if not parts:
            self.items_before = len(self.scan.items)
        parts.append(draft)
        self.i = nxt
        self._coefficient_behind(draft)
        return True

    def _name_may_follow(self, i: int) -> bool:
        """Whether unknown words behind sets may be the name: "5x3 Zercher lift"."""
        alone = not self.scan.parts and not self.sep and len(self.scan.items) == 1
        return alone and self.n - i <= 4 and self.kinds[i - 1] != ")"

    def _letter(self, i: int) -> tuple[PartDraft, int] | None:
        """ "C + J", "clean + FS + J": letters that stand for a lift only inside a complex."""
        name = {"j": "jerk", "c": "clean", "s": "snatch"}.get(self.words[i], "")
        before = self.kinds[i - 2] if self.kinds[i - 1] == "n" else self.kinds[i - 1]
        if not name or "+" not in (before, self.kinds[i + 1]):
            return None
        whole = self._both_letters(i)
        found = self.names.find("clean and jerk" if whole else name)
        if found is None:
            return None
        if whole:
            draft = PartDraft(
                self.line[self.tok(i).start : self.tok(i + 2).end], self.tok(i).start, self.tok(i + 2).end
            )
            draft.core, draft.movement, draft.kind = "clean and jerk", found.entry.id, found.kind
            return draft, i + 3
        draft = PartDraft(self.line[self.tok(i).start : self.tok(i).end], self.tok(i).start, self.tok(i).end)
        draft.core, draft.movement, draft.kind = name, found.entry.id, found.kind
        return draft, i + 1

    def _both_letters(self, i: int) -> bool:
        """Whether "C+J" at token ``i`` is the short name of one lift: nothing else hangs on either letter."""
        alone = self.words[i] == "c" and self.kinds[i + 1] == "+" and self.words[i + 2] == "j"
        counted = self.kinds[i - 1] == "n" or self.kinds[i + 3] == "+" or bool(self.scan.parts)
        return alone and not counted

    def _coefficient_behind(self, draft: PartDraft) -> None:
        """ "Snatch (2) + OHS (1)", "clean 2 + jerk 1"."""
        i = self.i
        had = len(self.scan.parts) > 1 and self.scan.parts[-2].reps_low is not None
        op = None
        end = i
        if self.kinds[i] == "(" and self.kinds[i + 1] == "n" and self.kinds[i + 2] == ")":
            if self.kinds[i + 3] == "+" or had:
                op, end = self.operand(i + 1), i + 3
        elif self.kinds[i] in ("n", "x"):
            k = i + 1 if self.kinds[i] == "x" else i
            joined = self.kinds[self.scan_before(draft)] == "+"
            if self.kinds[k] == "n" and self.kinds[k + 1] == "+" and self.kinds[k + 2] == "w":
                op, end = self.operand(k), k + 1
            elif self.kinds[k] == "n" and had and joined and self.kinds[k + 1] in ("", ",", ";", "@", "x"):
                op, end = self.operand(k), k + 1
                if op is None or op.end != end:
                    return
        if op is not None and draft.reps_low is None:
            amount = self.amount(op)
            if amount is not None:
                op_more = amount[2]
                draft.reps_low, draft.reps_high, draft.or_more = amount[0], amount[1], op_more
                self.i = end

    def scan_before(self, draft: PartDraft) -> int:
        """The token before a name."""
        return next((k - 1 for k in range(self.n) if self.toks[k].start == draft.start), -1)

    def _joined(self, i: int) -> bool:
        """Whether the name at ``i`` (or the number before it) is joined to the one before by a plus."""
        j = i - 1
        if len(self.scan.items) > self.items_before and not all(
            item.reps is None and item.pair is None and item.solo is None and item.load is None
            for item in self.scan.items[self.items_before :]
        ):
            return False
        if self.kinds[j] == "n":
            j -= 1
        while self.kinds[j] in ("(", ")") or (self.words[j] in ("a", "an", "by", "light", "with")):
            j -= 1
        if self.kinds[j] == "+" or self.kinds[j] == "&":
            return True
        if self.words[j] in _LINKING:
            return True
        return (
            self.kinds[j] in (",", "/")
            and self.scan.parts[-1].reps_low is not None
            and self.kinds[i - 1] == "n"
        )

    def _positions(self, i: int) -> bool:
        """ "2 position snatch", "3-position clean"."""
        j = i + 1
        if self.kinds[j] == "-":
            j += 1
        if self.words[j] not in ("position", "positions", "pos"):
            return False
        value = self.tok(i).value
        got = self.names.name(self.line, self.toks, j + 1)
        if (
            not isinstance(value, int)
            or got is None
            or not got[0].movement
            or (self.scan.parts and not self._joined(i))
        ):
            return False
        draft = got[0]
        draft.positions = value // 100
        draft.start = self.tok(i).start
        draft.written = self.line[draft.start : draft.end]
        whole = self.names.find(draft.written)
        if whole is not None:
            draft.movement, draft.kind = whole.entry.id, whole.kind
        else:
            draft.variant.insert(0, f"{draft.positions} positions")
        self.scan.parts.append(draft)
        self.i = got[1]
        return True
