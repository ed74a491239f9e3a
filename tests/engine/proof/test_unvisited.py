"""What no rehearsal visits: verdicts, answers, bands and ways round, also inside procedures."""

from engine.loading import folders
from engine.loading.library import gather
from engine.proof.rehearse import Rehearsed
from engine.proof.unvisited import unvisited
from tests.engine.interview.given import procedure
from tests.engine.proof.scripts import LOOK, TREE, gathered, rehearsed


def left(*results: Rehearsed) -> set[str]:
    """What these rehearsals have not visited."""
    return set(unvisited(gathered(TREE, LOOK), "bench", results))


def test_without_rehearsals_everything_is_unvisited() -> None:
    """Every way is told once, those of the tree first and in the order of the text."""
    assert unvisited(gathered(TREE, LOOK), "bench", ()) == (
        "first: cannot do or tell",
        "second: answer `All four`",
        "second: answer `Front only`",
        "second: cannot do or tell",
        "third: band 1",
        "third: band 2",
        "third: cannot do or tell",
        "fourth: band 1",
        "fourth: band 2",
        "fine",
        "sheared",
        "worn",
        "referred",
        "look/first: cannot do or tell",
    )


def test_what_was_visited_is_left_out() -> None:
    """A rehearsal takes its answers and its verdict off the list, and nothing else."""
    one = rehearsed("at: second, say: Front only")

    assert left() - left(one) == {"second: answer `Front only`", "sheared"}


def test_rehearsals_add_up() -> None:
    """What several rehearsals visit is visited, whether or not each passed."""
    one = rehearsed("at: second, say: Front only", "fine")
    two = rehearsed("at: first, unsure: no key", "referred")

    assert left() - left(one, two) == {
        "second: answer `Front only`",
        "sheared",
        "first: cannot do or tell",
        "referred",
    }


def test_what_was_stepped_back_over_counts() -> None:
    """An answer was tried even when it was taken back."""
    one = rehearsed("at: second, say: All four\nat: second, back: true\nat: second, say: Front only")

    assert "second: answer `All four`" not in left(one)


def test_followed_procedures_count() -> None:
    """Ways of a procedure that follows the verdict are visited like those of one that is run."""
    one = rehearsed("at: second, say: Front only\nat: sheared, follow: look\nat: look/first, unsure: dark")

    assert "look/first: cannot do or tell" not in left(one)


def test_what_no_vehicle_of_the_tree_passes_is_not_asked_for() -> None:
    """Behind a `sort`, only the cases that the tree's `for` leaves open are wanted of its rehearsals."""
    both = """
        first: {sort: gearbox, cases: {manual: by-hand, automatic: by-itself}}
        by-hand: {do: Shift it., then: seen, unsure: unseen}
        by-itself: {do: Watch it., then: seen, unsure: unseen}
        """
    sorted_out = procedure("look", "seen: Seen, unseen: Not seen", both)
    library = gathered(TREE.replace("start:", "for: {gearbox: manual}\nstart:", 1), sorted_out)

    assert unvisited(library, "bench", ())[-1:] == ("look/by-hand: cannot do or tell",)


def test_all_facts_of_a_vehicle_count_together() -> None:
    """No shipped automatic has its coupling built in, so none comes to the fluid of a replaced transaxle."""
    wanted = unvisited(gather(folders.shipped()), "coupling-weak", ())

    assert "replace-transaxle/compare: answer `It agrees in everything`" in wanted
    assert [way for way in wanted if way.startswith("check-automatic-fluid")] == []
