"""What is worked out once of a thing: asked again it is there, and it goes with its thing."""

import gc
import weakref

from mastlayout.once import lately, once


class Thing:
    """Something that may be forgotten."""


def test_each_thing_is_worked_out_once_for_each_question():
    """Two things, two questions: four times, however often they are asked."""
    asked = []

    @once
    def work(thing, question):
        asked.append((thing, question))
        return len(asked)

    things = Thing(), Thing()
    first = [work(thing, question) for thing in things for question in "ab"]
    assert [work(thing, question) for thing in things for question in "ab"] == first == [1, 2, 3, 4]
    assert len(asked) == 4


def test_of_each_thing_only_the_last_answers_are_kept():
    """The third pushes the first out; what another thing keeps is its own."""
    asked = []
    work = lately(2)(lambda _thing, question: asked.append(question))
    thing, other = Thing(), Thing()
    work(other, "a")
    for question in "abcbc":
        work(thing, question)
    assert asked == ["a", "a", "b", "c"]
    work(thing, "a")
    work(other, "a")
    assert asked == ["a", "a", "b", "c", "a"]


def test_nothing_is_a_finding_too():
    """What returned None is not asked again."""
    asked = []
    work = once(asked.append)
    thing = Thing()
    assert work(thing) is work(thing) is None
    assert len(asked) == 1


def test_it_goes_with_its_thing():
    """Nothing holds the thing, nor what was found of it."""

    @once
    def work(_thing):
        return Thing()

    thing = Thing()
    gone = weakref.ref(thing), weakref.ref(work(thing))
    del thing
    gc.collect()
    assert [ref() for ref in gone] == [None, None]
