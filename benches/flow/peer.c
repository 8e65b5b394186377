/* A tight Newton over arrays for constant-power trees, to measure the Rust solver against.
 *
 *   cc -O3 -march=native -ffp-contract=off -o peer peer.c -lm
 *
 * Reads a tree file, then answers one line a round on standard input: "newton" solves once from the
 * open-circuit voltage to a step below 1e-9 V and prints the nanoseconds and the lowest voltage;
 * "samples N" runs N samples with every resistance and power varied by +-5 %, four samples to a vector. The
 * random numbers of the samples are drawn inside the measured time with a generator of four lanes (xorshift).
 *
 * Tree file, little endian: int64 n, double V0, double R0, then int32 parent[n], double r[n], double p[n].
 */
#include <immintrin.h>
#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

typedef double four __attribute__((vector_size(32)));
typedef int64_t ifour __attribute__((vector_size(32)));
typedef uint64_t ufour __attribute__((vector_size(32)));

static int64_t n;
static double v0, r0;
static int32_t *parent;
static double *r, *p, *v;
struct pair { double s, b; };
static struct pair *acc;

static double now_ns(void) {
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return 1e9 * (double)t.tv_sec + (double)t.tv_nsec;
}

static int newton(void) {
    for (int64_t k = 0; k < n; k++) v[k] = v0;
    memset(acc, 0, (size_t)n * sizeof *acc);
    for (int step = 1; step <= 100; step++) {
        int bad = 0;
        for (int64_t k = n - 1; k > 0; k--) {
            double y = 1.0 / v[k], q = p[k] * y;
            double s = acc[k].s - q * y, b = acc[k].b + 2.0 * q;
            double pivot = 1.0 + r[k] * s, inv = 1.0 / pivot;
            bad |= !(pivot > 0.0);
            struct pair *up = &acc[parent[k]];
            up->s += s * inv;
            up->b += b * inv;
            acc[k].s = inv;
            acc[k].b = r[k] * b * inv;
        }
        double q = p[0] / v[0], s = acc[0].s - q / v[0], b = acc[0].b + 2.0 * q;
        double pivot = 1.0 + r0 * s;
        if (bad || !(pivot > 0.0)) return -1;
        double root = (v0 - r0 * b) / pivot, largest = fabs(v[0] - root);
        v[0] = root;
        acc[0].s = acc[0].b = 0.0;
        for (int64_t k = 1; k < n; k++) {
            double new = v[parent[k]] * acc[k].s - acc[k].b;
            acc[k].s = acc[k].b = 0.0;
            double change = fabs(v[k] - new);
            largest = change > largest ? change : largest;
            v[k] = new;
        }
        if (largest < 1e-9) return step;
    }
    return -2;
}

static four *r4, *p4, *v4;
struct pair4 { four s, b; };
static struct pair4 *acc4;
static ufour state;

static inline four factor(double spread) {
    state ^= state << 13;
    state ^= state >> 7;
    state ^= state << 17;
    /* The top 52 bits as a number in [1, 2). */
    ufour bits = (state >> 12) | 0x3ff0000000000000ULL;
    four u = (four)bits;
    return 1.0 + spread * (2.0 * u - 3.0);
}

static inline four absolute(four x) { return (four)((ifour)x & 0x7fffffffffffffffLL); }
static inline four larger(four a, four b) { return (four)_mm256_max_pd((__m256d)a, (__m256d)b); }
static inline four smaller(four a, four b) { return (four)_mm256_min_pd((__m256d)a, (__m256d)b); }

/* Lowest voltages of four samples; a lane without solution gets -1. */
static four newton_four(void) {
    const four one = {1, 1, 1, 1}, zero = {0, 0, 0, 0}, supply = v0 * one;
    for (int64_t k = 0; k < n; k++) v4[k] = supply;
    memset(acc4, 0, (size_t)n * sizeof *acc4);
    four lowest = zero;
    for (int step = 1; step <= 100; step++) {
        four least = one;
        for (int64_t k = n - 1; k > 0; k--) {
            four y = 1.0 / v4[k], q = p4[k] * y;
            four s = acc4[k].s - q * y, b = acc4[k].b + 2.0 * q;
            four pivot = 1.0 + r4[k] * s, inv = 1.0 / pivot;
            least = smaller(least, pivot);
            struct pair4 *up = &acc4[parent[k]];
            up->s += s * inv;
            up->b += b * inv;
            acc4[k].s = inv;
            acc4[k].b = r4[k] * b * inv;
        }
        four q = p4[0] / v4[0], s = acc4[0].s - q / v4[0], b = acc4[0].b + 2.0 * q;
        four pivot = 1.0 + r0 * s;
        least = smaller(least, pivot);
        four root = (v0 - r0 * b) / pivot, largest = absolute(v4[0] - root);
        v4[0] = root;
        acc4[0].s = acc4[0].b = zero;
        lowest = root;
        for (int64_t k = 1; k < n; k++) {
            four new = v4[parent[k]] * acc4[k].s - acc4[k].b;
            acc4[k].s = acc4[k].b = zero;
            largest = larger(largest, absolute(v4[k] - new));
            lowest = smaller(lowest, new);
            v4[k] = new;
        }
        int open = 0;
        for (int lane = 0; lane < 4; lane++) {
            if (!(least[lane] > 0.0)) lowest[lane] = -1.0;
            else if (!(largest[lane] < 1e-9)) open = 1;
        }
        if (!open) break;
    }
    return lowest;
}

static double samples(long count, double spread, double *mean) {
    double sum = 0.0;
    state = (ufour){0x9e3779b97f4a7c15ULL, 0xbf58476d1ce4e5b9ULL, 0x94d049bb133111ebULL, 0x2545f4914f6cdd1dULL};
    double start = now_ns();
    for (long done = 0; done < count; done += 4) {
        for (int64_t k = 1; k < n; k++) r4[k] = r[k] * factor(spread);
        for (int64_t k = 0; k < n; k++) p4[k] = p[k] * factor(spread);
        four lowest = newton_four();
        sum += lowest[0] + lowest[1] + lowest[2] + lowest[3];
    }
    double took = now_ns() - start;
    *mean = sum / (double)count;
    return took;
}

int main(int count, char **argument) {
    FILE *file = count == 2 ? fopen(argument[1], "rb") : NULL;
    if (!file || fread(&n, 8, 1, file) != 1 || fread(&v0, 8, 1, file) != 1 || fread(&r0, 8, 1, file) != 1) return 2;
    size_t m = (size_t)n;
    parent = aligned_alloc(64, (4 * m + 63) / 64 * 64);
    r = aligned_alloc(64, (8 * m + 63) / 64 * 64);
    p = aligned_alloc(64, (8 * m + 63) / 64 * 64);
    v = aligned_alloc(64, (8 * m + 63) / 64 * 64);
    acc = aligned_alloc(64, (16 * m + 63) / 64 * 64);
    r4 = aligned_alloc(64, 64 * (m + 1));
    p4 = aligned_alloc(64, 64 * (m + 1));
    v4 = aligned_alloc(64, 64 * (m + 1));
    acc4 = aligned_alloc(64, 64 * (m + 1));
    if (!parent || !r || !p || !v || !acc || !r4 || !p4 || !v4 || !acc4) return 2;
    if (fread(parent, 4, m, file) != m || fread(r, 8, m, file) != m || fread(p, 8, m, file) != m) return 2;
    fclose(file);
    char line[64];
    while (fgets(line, sizeof line, stdin)) {
        long wanted;
        if (sscanf(line, "samples %ld", &wanted) == 1) {
            double mean, took = samples(wanted, 0.05, &mean);
            printf("%.0f %.12f\n", took, mean);
        } else {
            int times = 1, steps = 0;
            sscanf(line, "newton %d", &times);
            double start = now_ns();
            for (int again = 0; again < times; again++) steps = newton();
            double took = now_ns() - start, lowest = v0;
            for (int64_t k = 0; k < n; k++) lowest = v[k] < lowest ? v[k] : lowest;
            printf("%.0f %.12f %d\n", took / times, lowest, steps);
        }
        fflush(stdout);
    }
    return 0;
}
