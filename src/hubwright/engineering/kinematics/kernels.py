"""The loops: one Newton solution per state, warm from the state before it, chunks of states side by side.

Everything here is mm and rad, arrays and numbers. A linkage arrives as the pair of arrays made by
`hubwright.engineering.kinematics.linkage.table_of`; frame 0 is the vehicle body, frames 1.. are the moving bodies.
Rotation unknowns are scaled by ``ARM_MM`` so that every column of the Jacobian has the size of a length.

Source: Newton's method on rigid-link constraints (derived).
"""

# numba infers the types and wants plain positional arguments
# mypy: disable-error-code="no-untyped-call,no-untyped-def,untyped-decorator"

from __future__ import annotations

import numpy as np
from numba import prange

from hubwright.engineering.kernels import njit

FAST = {"contract", "reassoc", "nsz", "arcp"}
DISTANCE, PLANE, SQUARE, MEAN = 0, 1, 2, 3
OK, IMPOSSIBLE, SINGULAR, PAST_DEAD_POINT = 0, 1, 2, 3
SOFT = 3  # columns of codes: kind, first body, second body, soft
FIRST, SECOND, ALONG, ALONG_SECOND, MOVES, REST, GAIN = 0, 3, 6, 9, 12, 15, 16  # first columns of figures
ARM_MM = 250.0
CLOSED_MM = 1e-8
SETTLED_MM = 1e-7
NEARLY_MM = 1.5e-3
PIVOT_RATIO_MIN = 1e-2
STEP_MM = 25.0
TURN_RAD, TURN_RAD_PER_MM = 0.05, 0.03  # a body that turns more in one step has jumped, not moved
ROUNDS = 30
CHUNK = 512
FEW = 4096


@njit(error_model="numpy", fastmath=FAST)
def _turn(rot, b, x, y, z):
    return (
        rot[b, 0, 0] * x + rot[b, 0, 1] * y + rot[b, 0, 2] * z,
        rot[b, 1, 0] * x + rot[b, 1, 1] * y + rot[b, 1, 2] * z,
        rot[b, 2, 0] * x + rot[b, 2, 1] * y + rot[b, 2, 2] * z,
    )


@njit(error_model="numpy", fastmath=FAST, inline="always")
def _place(figures, k, at, body, rot, centre, rack):
    """Arm of a point from its body's origin (zero on the vehicle) and its place; the rack may move it."""
    x, y, z = figures[k, at], figures[k, at + 1], figures[k, at + 2]
    ax = ay = az = 0.0
    if body == 0:
        x += figures[k, MOVES] * rack
        y += figures[k, MOVES + 1] * rack
        z += figures[k, MOVES + 2] * rack
    else:
        b = body - 1
        ax, ay, az = _turn(rot, b, x, y, z)
        x, y, z = centre[b, 0] + ax, centre[b, 1] + ay, centre[b, 2] + az
    return ax, ay, az, x, y, z


@njit(error_model="numpy", fastmath=FAST)
def _put(jac, k, body, gx, gy, gz, ax, ay, az, sx, sy, sz):
    """Add one body's part of a row: force direction g at the arm a plus a pure moment s."""
    n = 6 * (body - 1)
    jac[k, n] += gx
    jac[k, n + 1] += gy
    jac[k, n + 2] += gz
    jac[k, n + 3] += (ay * gz - az * gy + sx) * (1.0 / ARM_MM)
    jac[k, n + 4] += (az * gx - ax * gz + sy) * (1.0 / ARM_MM)
    jac[k, n + 5] += (ax * gy - ay * gx + sz) * (1.0 / ARM_MM)


@njit(error_model="numpy", fastmath=FAST, inline="always")
def _row(codes, figures, k, rot, centre, inputs, jac, with_jac):
    """Residual (mm) of one row, and its analytic Jacobian where wanted. d: from the first point to the second."""
    kind, body_a, body_b = codes[k, 0], codes[k, 1], codes[k, 2]
    rack, rest = inputs[inputs.shape[0] - 1], figures[k, REST]
    ax, ay, az, px, py, pz = _place(figures, k, FIRST, body_a, rot, centre, rack)
    bx, by, bz, qx, qy, qz = _place(figures, k, SECOND, body_b, rot, centre, rack)
    dx, dy, dz = qx - px, qy - py, qz - pz
    sx = sy = sz = 0.0
    back, spin_back = -1.0, 0.0
    if kind == DISTANCE:
        inverse = 1.0 / rest
        value = 0.5 * ((dx * dx + dy * dy + dz * dz) * inverse - rest)
        gx, gy, gz = dx * inverse, dy * inverse, dz * inverse
    elif kind == MEAN:
        gx, gy, gz = figures[k, 6], figures[k, 7], figures[k, 8]
        value = (px + qx) * gx + (py + qy) * gy + (pz + qz) * gz - rest
        back = 1.0
    else:
        gx, gy, gz = figures[k, 6], figures[k, 7], figures[k, 8]
        if body_a != 0:
            gx, gy, gz = _turn(rot, body_a - 1, gx, gy, gz)
        if kind == PLANE:
            value = dx * gx + dy * gy + dz * gz - rest
            sx, sy, sz = gy * dz - gz * dy, gz * dx - gx * dz, gx * dy - gy * dx
        else:
            fx, fy, fz = figures[k, 9], figures[k, 10], figures[k, 11]
            if body_b != 0:
                fx, fy, fz = _turn(rot, body_b - 1, fx, fy, fz)
            value = ARM_MM * (gx * fx + gy * fy + gz * fz) - rest
            sx, sy, sz = ARM_MM * (gy * fz - gz * fy), ARM_MM * (gz * fx - gx * fz), ARM_MM * (gx * fy - gy * fx)
            gx = gy = gz = 0.0
            spin_back = -1.0
    for i in range(inputs.shape[0]):
        value -= figures[k, GAIN + i] * inputs[i]
    if with_jac:
        for c in range(jac.shape[1]):
            jac[k, c] = 0.0
        if body_a != 0:
            _put(jac, k, body_a, back * gx, back * gy, back * gz, ax, ay, az, sx, sy, sz)
        if body_b != 0:
            _put(jac, k, body_b, gx, gy, gz, bx, by, bz, spin_back * sx, spin_back * sy, spin_back * sz)
    return value


@njit(error_model="numpy", fastmath=FAST)
def _assemble(codes, figures, rot, centre, inputs, jac, res, with_jac):
    """Residual (mm) and, where wanted, Jacobian of every row at one pose; returns the largest hard |residual|."""
    worst = 0.0
    for k in range(codes.shape[0]):
        value = _row(codes, figures, k, rot, centre, inputs, jac, with_jac)
        res[k, 0] = value
        if codes[k, SOFT] == 0 and not abs(value) <= worst:
            worst = abs(value)
    return worst


@njit(error_model="numpy")
def _eliminate(m, size, columns):
    """Gauss elimination with row pivoting in place; the answers stand in the columns after ``size``.

    Returns smallest over largest |pivot|, and the sign of the determinant (0 where a pivot vanishes).
    """
    least, most, sign = np.inf, 0.0, 1.0
    for k in range(size):
        p = k
        best = abs(m[k, k])
        for i in range(k + 1, size):
            v = abs(m[i, k])
            if v > best:
                best, p = v, i
        if not best > 1e-14:
            return 0.0, 0.0
        if p != k:
            sign = -sign
            for j in range(k, columns):
                m[k, j], m[p, j] = m[p, j], m[k, j]
        if m[k, k] < 0.0:
            sign = -sign
        least, most = min(least, best), max(most, best)
        inverse = 1.0 / m[k, k]
        for i in range(k + 1, size):
            factor = m[i, k] * inverse
            if factor != 0.0:
                for j in range(k + 1, columns):
                    m[i, j] -= factor * m[k, j]
    for c in range(size, columns):
        for i in range(size - 1, -1, -1):
            total = m[i, c]
            for j in range(i + 1, size):
                total -= m[i, j] * m[j, c]
            m[i, c] = total / m[i, i]
    return least / most, sign


@njit(error_model="numpy")
def _fill(codes, jac, right, m):
    """The system to eliminate: the square Jacobian, or, with give in some links, the least-squares one.

    With soft rows: least sum of their squares while the hard rows hold (Lagrange multipliers, Gauss-Newton).
    ``right`` (rows, columns) is what each row has to gain. Returns the size.
    """
    rows, free = jac.shape
    extra = right.shape[1]
    if rows == free:
        for i in range(rows):
            for j in range(free):
                m[i, j] = jac[i, j]
            for c in range(extra):
                m[i, free + c] = right[i, c]
        return free
    hard = 0
    for k in range(rows):
        hard += 1 - codes[k, SOFT]
    size = free + hard
    for i in range(size):
        for j in range(size + extra):
            m[i, j] = 0.0
    at = free
    for k in range(rows):
        if codes[k, SOFT] == 1:
            for i in range(free):
                for j in range(free):
                    m[i, j] += jac[k, i] * jac[k, j]
                for c in range(extra):
                    m[i, size + c] += jac[k, i] * right[k, c]
        else:
            for i in range(free):
                m[i, at] = jac[k, i]
                m[at, i] = jac[k, i]
            for c in range(extra):
                m[at, size + c] = right[k, c]
            at += 1
    return size


@njit(error_model="numpy")
def _rotation(q, rot):
    for b in range(q.shape[0]):
        w, x, y, z = q[b, 0], q[b, 1], q[b, 2], q[b, 3]
        rot[b, 0, 0] = 1.0 - 2.0 * (y * y + z * z)
        rot[b, 0, 1] = 2.0 * (x * y - w * z)
        rot[b, 0, 2] = 2.0 * (x * z + w * y)
        rot[b, 1, 0] = 2.0 * (x * y + w * z)
        rot[b, 1, 1] = 1.0 - 2.0 * (x * x + z * z)
        rot[b, 1, 2] = 2.0 * (y * z - w * x)
        rot[b, 2, 0] = 2.0 * (x * z - w * y)
        rot[b, 2, 1] = 2.0 * (y * z + w * x)
        rot[b, 2, 2] = 1.0 - 2.0 * (x * x + y * y)


@njit(error_model="numpy")
def _move(centre, q, m, size):
    """Apply the step in column ``size``: shift each body and turn its quaternion. Returns the largest part, mm."""
    largest = 0.0
    for b in range(q.shape[0]):
        n = 6 * b
        for a in range(6):
            largest = max(largest, abs(m[n + a, size]))
    scale = min(1.0, 0.5 * ARM_MM / max(largest, 1e-30))
    for b in range(q.shape[0]):
        n = 6 * b
        for a in range(3):
            centre[b, a] += scale * m[n + a, size]
        # (1, half the turn) made unit is a turn by 2 atan(half): right to second order, never off the sphere
        hx = scale * 0.5 * m[n + 3, size] / ARM_MM
        hy = scale * 0.5 * m[n + 4, size] / ARM_MM
        hz = scale * 0.5 * m[n + 5, size] / ARM_MM
        w, x, y, z = q[b, 0], q[b, 1], q[b, 2], q[b, 3]
        nw = w - hx * x - hy * y - hz * z
        nx = x + hx * w + hy * z - hz * y
        ny = y + hy * w + hz * x - hx * z
        nz = z + hz * w + hx * y - hy * x
        unit = 1.0 / np.sqrt(nw * nw + nx * nx + ny * ny + nz * nz)
        q[b, 0], q[b, 1], q[b, 2], q[b, 3] = nw * unit, nx * unit, ny * unit, nz * unit
    return largest


@njit(error_model="numpy")
def _newton(codes, figures, inputs, centre, q, rot, jac, res, m, health):
    """Close the links at ``inputs`` from the pose given, in place. ``health``: pivot ratio and determinant sign."""
    square = jac.shape[0] == jac.shape[1]
    settled = False
    step = np.inf
    for _ in range(ROUNDS):
        _rotation(q, rot)
        # Newton squares the error, so after so small a step the links are closed already: look before working out more
        nearly = square and step < NEARLY_MM
        worst = _assemble(codes, figures, rot, centre, inputs, jac, res, not nearly)
        if nearly and not worst < CLOSED_MM:
            worst = _assemble(codes, figures, rot, centre, inputs, jac, res, True)
        if not worst < 1e6:
            return False
        if worst < CLOSED_MM and (square or settled):
            return True
        size = _fill(codes, jac, res, m)
        for i in range(size):
            m[i, size] = -m[i, size]
        ratio, sign = _eliminate(m, size, size + 1)
        health[0], health[1] = ratio, sign
        if sign == 0.0:
            return False
        step = _move(centre, q, m, size)
        settled = step < SETTLED_MM
    return False


@njit(error_model="numpy")
def _travel_to(codes, figures, start, goal, step, sign_at_rest, now, before, centre, q, rot, jac, res, m, health):
    """Walk from the inputs ``start`` to ``goal`` in equal steps no longer than ``step``; returns a status."""
    far = 0.0
    for i in range(goal.shape[0]):
        far = max(far, abs(goal[i] - start[i]))
    count = max(1, int(np.ceil(far / step)))
    half_turn = 0.5 * (TURN_RAD + TURN_RAD_PER_MM * far / count)
    for s in range(1, count + 1):
        for i in range(goal.shape[0]):
            now[i] = start[i] + (goal[i] - start[i]) * (s / count)
        for b in range(q.shape[0]):
            for a in range(4):
                before[b, a] = q[b, a]
        if not _newton(codes, figures, now, centre, q, rot, jac, res, m, health):
            return SINGULAR if health[1] == 0.0 else IMPOSSIBLE
        if health[1] != sign_at_rest:
            return PAST_DEAD_POINT
        for b in range(q.shape[0]):
            # the dot product of two unit quaternions is the cosine of half the turn between them
            dot = abs(q[b, 0] * before[b, 0] + q[b, 1] * before[b, 1] + q[b, 2] * before[b, 2] + q[b, 3] * before[b, 3])
            if dot < 1.0 - 0.5 * half_turn * half_turn:
                return PAST_DEAD_POINT
    return SINGULAR if health[0] < PIVOT_RATIO_MIN else OK


@njit(error_model="numpy")
def _look_ahead(past, goal, last, stride, centre, q, even):
    """Guess the next pose on a run of even steps from the last two to four poses (``past``: newest first).

    ``even`` counts the equal steps before this one. Returns the count with this one. A guess only: Newton decides.
    """
    same = True
    for i in range(goal.shape[0]):
        step = goal[i] - last[i]
        same = same and abs(step - stride[i]) < 1e-9 and abs(step) <= STEP_MM
        stride[i] = step
    if not same:
        return 0
    if even > 0:
        # the polynomial through as many poses as lie on the run, continued by one step
        f0, f1, f2, f3 = 2.0, -1.0, 0.0, 0.0
        if even == 2:
            f0, f1, f2, f3 = 3.0, -3.0, 1.0, 0.0
        elif even > 2:
            f0, f1, f2, f3 = 4.0, -6.0, 4.0, -1.0
        for b in range(q.shape[0]):
            for a in range(3):
                centre[b, a] = f0 * past[0, b, a] + f1 * past[1, b, a] + f2 * past[2, b, a] + f3 * past[3, b, a]
            square = 0.0
            for a in range(4):
                c = 3 + a
                q[b, a] = f0 * past[0, b, c] + f1 * past[1, b, c] + f2 * past[2, b, c] + f3 * past[3, b, c]
                square += q[b, a] * q[b, a]
            unit = 1.0 / np.sqrt(square)
            for a in range(4):
                q[b, a] *= unit
    return even + 1


@njit(error_model="numpy")
def _remember(past, centre, q):
    for b in range(q.shape[0]):
        for a in range(7):
            past[3, b, a] = past[2, b, a]
            past[2, b, a] = past[1, b, a]
            past[1, b, a] = past[0, b, a]
            past[0, b, a] = centre[b, a] if a < 3 else q[b, a - 3]


@njit(error_model="numpy")
def _to_rest(origin, centre, q, last, health, at_rest):
    """Put everything back to the rest pose."""
    for b in range(q.shape[0]):
        for a in range(3):
            centre[b, a] = origin[b, a]
            q[b, a + 1] = 0.0
        q[b, 0] = 1.0
    for i in range(last.shape[0]):
        last[i] = 0.0
    health[0], health[1] = at_rest


@njit(error_model="numpy")
def _nearer_than_rest(goal, last):
    to_last, to_rest = 0.0, 0.0
    for i in range(goal.shape[0]):
        to_last = max(to_last, abs(goal[i] - last[i]))
        to_rest = max(to_rest, abs(goal[i]))
    return to_last <= to_rest


@njit(error_model="numpy")
def _solve_run(codes, figures, origin, inputs, begin, end, centres, rotations, status, strain, ratios):
    """The states from ``begin`` to ``end``, one after the other, each from the one before it or from rest."""
    rows, bodies, given = codes.shape[0], origin.shape[0], inputs.shape[1]
    free = 6 * bodies
    jac, res = np.zeros((rows, free)), np.zeros((rows, 1))
    m = np.zeros((free + rows, free + rows + 1))
    centre, rot = np.zeros((bodies, 3)), np.zeros((bodies, 3, 3))
    q, before = np.zeros((bodies, 4)), np.zeros((bodies, 4))
    now, last, stride, health = np.zeros(given), np.zeros(given), np.full(given, np.inf), np.zeros(2)
    past, even = np.zeros((4, bodies, 7)), 0
    _to_rest(origin, centre, q, last, health, (1.0, 1.0))
    _rotation(q, rot)
    _assemble(codes, figures, rot, centre, now, jac, res, True)
    size = _fill(codes, jac, res, m)
    at_rest = _eliminate(m, size, size + 1)
    health[0], health[1] = at_rest
    warm = True
    for s in range(begin, end):
        goal = inputs[s]
        warm = warm and _nearer_than_rest(goal, last)
        even = _look_ahead(past, goal, last, stride, centre, q, even) if warm else 0
        result = IMPOSSIBLE
        for attempt in range(0 if warm else 1, 3):
            if attempt > 0:
                _to_rest(origin, centre, q, last, health, at_rest)
            step = STEP_MM if attempt < 2 else 0.2 * STEP_MM
            result = _travel_to(
                codes, figures, last, goal, step, at_rest[1], now, before, centre, q, rot, jac, res, m, health
            )
            if result == OK:
                break
        status[s], ratios[s], warm = result, health[0], result == OK
        if warm:
            _remember(past, centre, q)
            strain[s] = 0.0
            for i in range(given):
                last[i] = goal[i]
            for k in range(rows):
                strain[s] = max(strain[s], abs(res[k, 0]))
            for b in range(bodies):
                for a in range(3):
                    centres[s, b, a] = centre[b, a]
                    for c in range(3):
                        rotations[s, b, a, c] = rot[b, a, c]


@njit(error_model="numpy")
def _answers(states, bodies):
    centres, rotations = np.full((states, bodies, 3), np.nan), np.full((states, bodies, 3, 3), np.nan)
    return centres, rotations, np.zeros(states, np.int8), np.full(states, np.nan), np.zeros(states)


@njit(error_model="numpy", parallel=True)
def solve_batch(codes, figures, origin, inputs):
    """Poses of all bodies for all states.

    Args:
        codes: Kind, first body, second body and softness of each row.
        figures: Points, directions, rack move, rest value and gains of each row.
        origin: Rest place of each body's origin, mm, (bodies, 3).
        inputs: Travel of each wheel, then rack, mm, (states, wheels + 1).

    Returns:
        Origins (states, bodies, 3), rotations from rest (states, bodies, 3, 3), status (states,), largest row
        residual in mm, soft rows included (states,), pivot ratio (states,). NaN where the status is not OK.
    """
    states = inputs.shape[0]
    centres, rotations, status, strain, ratios = _answers(states, origin.shape[0])
    for run in prange((states + CHUNK - 1) // CHUNK):
        end = min(states, (run + 1) * CHUNK)
        _solve_run(codes, figures, origin, inputs, run * CHUNK, end, centres, rotations, status, strain, ratios)
    return centres, rotations, status, strain, ratios


@njit(error_model="numpy")
def solve_few(codes, figures, origin, inputs):
    """As `solve_batch`, on the calling thread: up to ``FEW`` states waking other threads costs more than it saves."""
    centres, rotations, status, strain, ratios = _answers(inputs.shape[0], origin.shape[0])
    _solve_run(codes, figures, origin, inputs, 0, inputs.shape[0], centres, rotations, status, strain, ratios)
    return centres, rotations, status, strain, ratios


@njit(error_model="numpy")
def _drive(codes, figures, rot, centre, inputs, right):
    """What each row must gain per mm of each input: its drive, and for the rack the pull of its moving point."""
    rack = inputs.shape[0] - 1
    for k in range(codes.shape[0]):
        for i in range(inputs.shape[0]):
            right[k, i] = figures[k, GAIN + i]
        if figures[k, MOVES] == 0.0 and figures[k, MOVES + 1] == 0.0 and figures[k, MOVES + 2] == 0.0:
            continue
        body = codes[k, 1] + codes[k, 2] - 1
        outer, inner = (SECOND, FIRST) if codes[k, 1] == 0 else (FIRST, SECOND)
        arm = _turn(rot, body, figures[k, outer], figures[k, outer + 1], figures[k, outer + 2])
        pull = 0.0
        for x in range(3):
            reach = centre[body, x] + arm[x] - figures[k, inner + x] - figures[k, MOVES + x] * inputs[rack]
            pull += figures[k, MOVES + x] * reach / figures[k, REST]
        right[k, rack] += pull


@njit(error_model="numpy")
def _rates_run(codes, figures, centres, rotations, status, inputs, begin, end, rates):
    rows, bodies, given = codes.shape[0], centres.shape[1], inputs.shape[1]
    free = 6 * bodies
    jac, res, right = np.zeros((rows, free)), np.zeros((rows, 1)), np.zeros((rows, given))
    m = np.zeros((free + rows, free + rows + given))
    for s in range(begin, end):
        if status[s] != OK:
            continue
        _assemble(codes, figures, rotations[s], centres[s], inputs[s], jac, res, True)
        _drive(codes, figures, rotations[s], centres[s], inputs[s], right)
        size = _fill(codes, jac, right, m)
        _eliminate(m, size, size + given)
        for i in range(given):
            for b in range(bodies):
                for a in range(3):
                    rates[s, i, b, a] = m[6 * b + a, size + i]
                    rates[s, i, b, 3 + a] = m[6 * b + 3 + a, size + i] / ARM_MM


@njit(error_model="numpy", parallel=True)
def rates_batch(codes, figures, centres, rotations, status, inputs):
    """How every body moves per mm of every input, from the Jacobian at solved states.

    Returns:
        (states, inputs, bodies, 6): velocity of the body's origin (mm/mm) and turning (rad/mm); NaN where not OK.
    """
    states = centres.shape[0]
    rates = np.full((states, inputs.shape[1], centres.shape[1], 6), np.nan)
    for run in prange((states + CHUNK - 1) // CHUNK):
        end = min(states, (run + 1) * CHUNK)
        _rates_run(codes, figures, centres, rotations, status, inputs, run * CHUNK, end, rates)
    return rates


@njit(error_model="numpy")
def rates_few(codes, figures, centres, rotations, status, inputs):
    """As `rates_batch`, on the calling thread."""
    states = centres.shape[0]
    rates = np.full((states, inputs.shape[1], centres.shape[1], 6), np.nan)
    _rates_run(codes, figures, centres, rotations, status, inputs, 0, states, rates)
    return rates


@njit(error_model="numpy")
def residual_and_jacobian(codes, figures, centre, rot, inputs):
    """Residuals (rows,) and Jacobian (rows, 6 x bodies) at one pose; rotation columns per ``ARM_MM`` rad."""
    rows, free = codes.shape[0], 6 * centre.shape[0]
    jac, res = np.zeros((rows, free)), np.zeros((rows, 1))
    _assemble(codes, figures, rot, centre, inputs, jac, res, True)
    return res[:, 0], jac
