"""Every rule, in the order in which a reader meets them."""

import inspect
from types import ModuleType
from typing import Final

from engine.lint.finding import Severity
from engine.lint.rule import Rule
from engine.lint.rules import (
    answers_alike,
    band_gap,
    band_overlap,
    band_unused,
    branch_never_taken,
    dead_end,
    figure_inputs,
    fits_do_not_add_up,
    forbidden_state,
    gauge_too_coarse,
    hard_to_read,
    hazard_without_caution,
    left_unsafe,
    limit_outside_plausible,
    limit_without_source,
    loop,
    missing_state,
    name_clash,
    no_sheet,
    no_unsure,
    open_branch,
    picture_not_there,
    procedure_never_used,
    question_twice,
    same_complaint,
    sheet_value,
    state_not_set,
    state_set_twice,
    states_together,
    suspect_never_convicted,
    suspects_alike,
    text_too_long,
    tree_not_rehearsed,
    unit_of_gauge,
    unknown_name,
    unproven_source,
    unreachable_step,
    verdict_without_follow_up,
    verdict_without_suspect,
)


def _rule(module: ModuleType, severity: Severity = "error", *, bars: bool = True) -> Rule:
    slug = module.__name__.rpartition(".")[2].replace("_", "-")
    page = inspect.cleandoc(module.__doc__ or "")
    return Rule(slug, severity, module.check, page, bars and severity == "error")


RULES: Final = (
    _rule(unknown_name),
    _rule(name_clash),
    _rule(unreachable_step),
    _rule(loop),
    _rule(dead_end),
    _rule(open_branch),
    _rule(figure_inputs),
    _rule(band_gap),
    _rule(band_overlap),
    _rule(band_unused),
    _rule(limit_outside_plausible),
    _rule(branch_never_taken, "warning"),
    _rule(missing_state),
    _rule(forbidden_state),
    _rule(left_unsafe),
    _rule(states_together),
    _rule(state_set_twice, "warning"),
    _rule(state_not_set, "warning"),
    _rule(sheet_value),
    _rule(no_sheet, "warning"),
    _rule(unit_of_gauge),
    _rule(gauge_too_coarse, "warning"),
    _rule(suspect_never_convicted, bars=False),
    _rule(verdict_without_suspect, bars=False),
    _rule(fits_do_not_add_up, bars=False),
    _rule(suspects_alike, "warning"),
    _rule(answers_alike, "warning"),
    _rule(question_twice, "warning"),
    _rule(verdict_without_follow_up, "warning"),
    _rule(procedure_never_used, "warning"),
    _rule(tree_not_rehearsed, "warning"),
    _rule(same_complaint, "warning"),
    _rule(hazard_without_caution, bars=False),
    _rule(limit_without_source, bars=False),
    _rule(unproven_source, bars=False),
    _rule(no_unsure, "warning"),
    _rule(text_too_long, "warning"),
    _rule(hard_to_read, "warning"),
    _rule(picture_not_there, bars=False),
)
