from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hubwright.tables.threads import metric_thread, thread, turns

diameters = st.integers(min_value=6, max_value=60).map(float)
shares = st.floats(min_value=0.02, max_value=0.12)


@given(diameters, shares)
def test_diameters_of_a_thread_are_nested(d_mm, share):
    made = metric_thread(d_mm, d_mm * share)
    assert 0 < made.d3_mm < made.minor_internal_mm < made.d2_mm < made.d_mm
    assert made.stress_area_mm2 < 3.1416 / 4 * made.d2_mm**2


@given(diameters, shares, st.floats(min_value=1.05, max_value=2))
def test_a_coarser_pitch_leaves_less_area_and_a_thicker_bolt_more(d_mm, share, factor):
    pitch_mm = d_mm * share
    made = metric_thread(d_mm, pitch_mm)
    assert metric_thread(d_mm, pitch_mm * factor).stress_area_mm2 < made.stress_area_mm2
    assert metric_thread(d_mm * factor, pitch_mm).stress_area_mm2 > made.stress_area_mm2


@given(diameters, st.sampled_from([1.0, 1.25, 1.5]), st.sampled_from(["M{}x{}", "m{} x {}", "M{}×{}0", " M{}-{} "]))
def test_a_designation_written_any_usual_way_gives_the_same_thread(d_mm, pitch_mm, form):
    assert thread(form.format(int(d_mm), pitch_mm)) == metric_thread(d_mm, pitch_mm)
    assert thread(metric_thread(d_mm, pitch_mm).designation) == metric_thread(d_mm, pitch_mm)


@given(st.floats(min_value=0, max_value=60), st.sampled_from(["M14x1.5", "1/2-20"]))
def test_turns_times_pitch_is_the_length(length_mm, name):
    assert turns(length_mm, thread(name)) * thread(name).pitch_mm == pytest.approx(length_mm)
