"""Laws whose every draw is a sweep of whole designs: a part of the profile's draws, and a draw
that fails is shown as it is, for to shrink it would take minutes."""

from hypothesis import Phase, settings


def part(share):
    most = max(1, settings.default.max_examples // share)
    return settings(max_examples=most, phases=[Phase.explicit, Phase.generate])


few_draws, fewest_draws = part(4), part(8)
