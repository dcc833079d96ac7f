#include "chemistry/equilibrium_kernel.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

#include "chemistry/equilibrium_table.hpp"
#include "gelwright/error.hpp"

namespace gelwright::detail {
namespace {

/// Exponents of one species in the forms the sums need.
struct State {
  double n = 0.0, z2 = 0.0, z4 = 0.0;
  std::size_t h_power = 0;      ///< into the table of powers of h
  std::size_t gamma_power = 0;  ///< into the table of powers of gamma1
};

constexpr int lowest_gamma_power = -9;
constexpr std::size_t gamma_powers = 14;  // -9 to 4

struct Layout {
  std::array<State, species_count> states{};
  std::array<Ligand, ligand_count> ligands{};
  std::size_t ca_hydroxide = species_index("CaOH+");
  std::size_t uronic = species_index("HUron");
  std::size_t buffered = species_index("HBuf");
  std::size_t carbon_dioxide = species_index("H2CO3");
};

Layout make_layout() {
  Layout layout;
  const auto all = species();
  for (std::size_t l = 0; l < ligand_count; ++l) {
    Ligand& ligand = layout.ligands[l];
    ligand.component = static_cast<Component>(l);
    const auto count = [&](auto&& in) {
      return static_cast<std::size_t>(std::count_if(all.begin(), all.end(), [&](const Species& s) {
        return s.component == ligand.component && in(s);
      }));
    };
    while (all[ligand.first].component != ligand.component) ++ligand.first;
    ligand.ca = ligand.first +
                count([](const Species& s) { return s.n_ca + s.n_mg + s.n_na + s.n_k == 0; });
    ligand.mg = ligand.ca + count([](const Species& s) { return s.n_ca == 1; });
    ligand.last = ligand.mg + count([](const Species& s) { return s.n_mg == 1; });
    const Species& last_acid = all[ligand.ca - 1];
    if (last_acid.n_h > 0)
      ligand.gamma_step =
          static_cast<double>(last_acid.activity_z2 - last_acid.charge * last_acid.charge) /
          last_acid.n_h;
  }
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Species& s = all[i];
    State& state = layout.states[i];
    state.n = s.n_h;
    state.z2 = s.charge * s.charge;
    state.z4 = state.z2 * state.z2;
    state.h_power = static_cast<std::size_t>(std::max(s.n_h, 0));
    const int power = 4 * (s.n_ca + s.n_mg) + s.n_na + s.n_k - s.activity_z2;
    state.gamma_power = static_cast<std::size_t>(power - lowest_gamma_power);
  }
  return layout;
}

const Layout& layout() {
  static const Layout the_layout = make_layout();
  return the_layout;
}

/// Powers of gamma1 from -9 to 4.
std::array<double, gamma_powers> powers_of(double gamma1) {
  std::array<double, gamma_powers> g{};
  constexpr auto zero = static_cast<std::size_t>(-lowest_gamma_power);
  g[zero] = 1.0;
  for (std::size_t p = zero + 1; p < gamma_powers; ++p) g[p] = g[p - 1] * gamma1;
  const double inverse = 1.0 / gamma1;
  for (std::size_t p = zero; p > 0; --p) g[p - 1] = g[p] * inverse;
  return g;
}

/// Six digits, as %g prints them.
std::string number(double x) {
  char text[32];
  std::snprintf(text, sizeof text, "%g", x);
  return text;
}

[[noreturn]] void refuse(const Totals& totals, const EquilibriumOptions& options) {
  std::vector<Problem> problems;
  for (std::size_t c = 0; c < component_count; ++c) {
    const double t = totals.mol_per_kg[c];
    const std::string where(to_text(static_cast<Component>(c)));
    if (!std::isfinite(t))
      problems.push_back({where, "the amount is not a number", ""});
    else if (t < 0.0)
      problems.push_back({where, "the amount is negative: " + number(t) + " mol/kg", ""});
    else if (t > highest_mol_per_kg)
      problems.push_back({where, number(t) + " mol per kg of water is more than dissolves",
                          "check the unit, or that water was counted"});
  }
  if (totals[Component::buffer] > 0.0 && !options.buffer_pka)
    problems.push_back({"buffer", "there is buffer but its pKa is not given", "give buffer_pka"});
  const auto check = [&](const std::optional<double>& value, const char* where, double low,
                         double high) {
    if (value && !(*value >= low && *value <= high))
      problems.push_back(
          {where, "the value is outside " + number(low) + " to " + number(high), ""});
  };
  check(options.gum_pka, "gum_pka", lowest_pka, highest_pka);
  check(options.buffer_pka, "buffer_pka", lowest_pka, highest_pka);
  check(options.co2_ppm, "co2_ppm", 0.0, 1e6);
  throw InputError("", std::move(problems));
}

bool usable(const Totals& totals, const EquilibriumOptions& options) {
  for (const double t : totals.mol_per_kg)
    if (!(t >= 0.0 && t <= highest_mol_per_kg)) return false;
  const auto pka_ok = [](const std::optional<double>& p) {
    return !p || (*p >= lowest_pka && *p <= highest_pka);
  };
  return pka_ok(options.gum_pka) && pka_ok(options.buffer_pka) &&
         (totals[Component::buffer] <= 0.0 || options.buffer_pka) &&
         (!options.co2_ppm || (*options.co2_ppm >= 0.0 && *options.co2_ppm <= 1e6));
}

}  // namespace

System make_system(const Totals& totals, const Constants& constants,
                   const EquilibriumOptions& options) {
  if (!usable(totals, options)) refuse(totals, options);
  const Layout& lay = layout();
  System s;
  s.k = constants.beta;
  if (options.gum_pka) s.k[lay.uronic] = std::pow(10.0, *options.gum_pka);
  if (options.buffer_pka) s.k[lay.buffered] = std::pow(10.0, *options.buffer_pka);
  s.kw = constants.kw;
  s.k_caoh = s.k[lay.ca_hydroxide];
  s.a_ln10 = options.ideal ? 0.0 : constants.davies_a * std::log(10.0);

  const auto amount = [&](Component c) { return totals[c] < trace_mol_per_kg ? 0.0 : totals[c]; };
  s.ca_total = amount(Component::calcium);
  s.mg_total = amount(Component::magnesium);
  s.na_total = amount(Component::sodium);
  s.k_total = amount(Component::potassium);
  const double cl = amount(Component::chloride);
  s.strong_z2 = s.na_total + s.k_total + cl;
  s.proton_total = cl - s.na_total - s.k_total - 2.0 * (s.ca_total + s.mg_total);

  s.strong_charge = s.proton_total;

  for (std::size_t l = 0; l < ligand_count; ++l) {
    const auto c = static_cast<Component>(l);
    Ligand ligand = lay.ligands[l];
    if (c == Component::carbonate && options.carbon_dioxide == CarbonDioxide::open) {
      const double ppm = options.co2_ppm.value_or(default_co2_ppm);
      ligand.total = 1e-6 * ppm * constants.kh_mol_per_kg_atm;
      ligand.fixed = true;
      ligand.n_shift = 2.0;
      if (ligand.total < trace_mol_per_kg) continue;
    } else {
      ligand.total = amount(c);
      if (ligand.total == 0.0) continue;
      s.proton_total -= charge_of(c) * ligand.total;
    }
    s.ligands[s.ligands_used++] = ligand;
  }
  s.shifted_total = s.proton_total;
  return s;
}

double ln_gamma1(const System& s, double i, double* slope) {
  // The form turns up beyond its range, so it is held there.
  const double held = std::min(i, davies_held_above);
  const double root = std::sqrt(held);
  if (slope != nullptr)
    *slope = i > davies_held_above || root == 0.0
                 ? 0.0
                 : -s.a_ln10 * (0.5 / (root * (1.0 + root) * (1.0 + root)) - davies_linear);
  return -s.a_ln10 * (root / (1.0 + root) - davies_linear * held);
}

namespace {

/// Sums over the states of one ligand that hold the same metal.
struct Group {
  double w = 0.0, n = 0.0, n2 = 0.0, z2 = 0.0, z4 = 0.0, n_z2 = 0.0;
};

}  // namespace

Sums evaluate(const System& s, const Point& at, double gamma1) {
  const auto& states = layout().states;
  const auto g = powers_of(gamma1);
  const std::array<double, 4> h_powers{1.0, at.h, at.h * at.h, at.h * at.h * at.h};
  const auto collect = [&](std::size_t from, std::size_t to, double shift) {
    Group sum;
    for (std::size_t i = from; i < to; ++i) {
      const State& state = states[i];
      const double w = s.k[i] * h_powers[state.h_power] * g[state.gamma_power];
      const double n = state.n - shift, wn = w * n;
      sum.w += w;
      sum.n += wn;
      sum.n2 += wn * n;
      sum.z2 += w * state.z2;
      sum.z4 += w * state.z4;
      sum.n_z2 += wn * state.z2;
    }
    return sum;
  };

  Sums out;
  out.z2 = s.strong_z2;
  for (std::size_t l = 0; l < s.ligands_used; ++l) {
    const Ligand& ligand = s.ligands[l];
    Group sum = collect(ligand.first, ligand.ca, ligand.n_shift);
    Group ca, mg;
    if (at.ca > 0.0) ca = collect(ligand.ca, ligand.mg, ligand.n_shift);
    if (at.mg > 0.0) mg = collect(ligand.mg, ligand.last, ligand.n_shift);
    for (auto [metal, group] : {std::pair{at.ca, &ca}, std::pair{at.mg, &mg}}) {
      group->w *= metal;
      group->n *= metal;
      group->z2 *= metal;
      sum.w += group->w;
      sum.n += group->n;
      sum.n2 += metal * group->n2;
      sum.z2 += group->z2;
      sum.z4 += metal * group->z4;
      sum.n_z2 += metal * group->n_z2;
    }
    if (ligand.fixed) {
      // Amounts follow [CO2] = `total`, which is the last metal-free state; protons count from it.
      const double f = ligand.total / (s.k[ligand.ca - 1] * h_powers[2]);
      out.protons += f * sum.n;
      out.negative_protons -= f * sum.n;
      out.ca += f * ca.w;
      out.mg += f * mg.w;
      out.z2 += f * sum.z2;
      out.nn += f * sum.n2;
      out.n_ca += f * ca.n;
      out.n_mg += f * mg.n;
      out.n_z2 += f * sum.n_z2;
      out.ca_ca += f * ca.w;
      out.ca_z2 += f * ca.z2;
      out.mg_mg += f * mg.w;
      out.mg_z2 += f * mg.z2;
      out.z2_z2 += f * sum.z4;
      out.neg_h -= f * sum.n2;
      out.neg_ca -= f * ca.n;
      out.neg_mg -= f * mg.n;
      out.neg_gamma -= f * (4.0 * (ca.n + mg.n) - sum.n_z2);
      continue;
    }
    const double inverse = 1.0 / sum.w;
    const double total = ligand.total;
    const double n = sum.n * inverse, z2 = sum.z2 * inverse;
    const double x = ca.w * inverse, y = mg.w * inverse;
    out.protons += total * n;
    out.z2 += total * z2;
    out.nn += total * (sum.n2 * inverse - n * n);
    out.n_z2 += total * (sum.n_z2 * inverse - n * z2);
    out.z2_z2 += total * (sum.z4 * inverse - z2 * z2);
    out.n_step += ligand.gamma_step * total * (sum.n2 * inverse - n * n);
    out.z2_step += ligand.gamma_step * total * (sum.n_z2 * inverse - n * z2);
    out.ca += total * x;
    out.mg += total * y;
    out.n_ca += total * (ca.n * inverse - n * x);
    out.n_mg += total * (mg.n * inverse - n * y);
    out.ca_ca += total * (x - x * x);
    out.ca_mg -= total * x * y;
    out.mg_mg += total * (y - y * y);
    out.ca_z2 += total * (ca.z2 * inverse - x * z2);
    out.mg_z2 += total * (mg.z2 * inverse - y * z2);
  }

  // Free ions: H+ has n = 1, OH- has n = -1, both z^2 = 1; CaOH+ has n = -1 and one calcium.
  const double hydrogen = at.h / gamma1;
  const double hydroxide = s.kw / (at.h * gamma1);
  const double ca_hydroxide = s.k_caoh * at.ca * (gamma1 * gamma1 * gamma1) / at.h;
  out.protons += hydrogen - hydroxide - ca_hydroxide;
  out.negative_protons += hydroxide + ca_hydroxide;
  out.ca += at.ca + ca_hydroxide;
  out.mg += at.mg;
  out.z2 += hydrogen + hydroxide + ca_hydroxide + 4.0 * (at.ca + at.mg);
  out.nn += hydrogen + hydroxide + ca_hydroxide;
  out.n_ca -= ca_hydroxide;
  out.n_z2 += hydrogen - hydroxide - ca_hydroxide;
  out.ca_ca += at.ca + ca_hydroxide;
  out.ca_z2 += 4.0 * at.ca + ca_hydroxide;
  out.mg_mg += at.mg;
  out.mg_z2 += 4.0 * at.mg;
  out.z2_z2 += hydrogen + hydroxide + ca_hydroxide + 16.0 * (at.ca + at.mg);
  out.neg_h -= hydroxide + ca_hydroxide;
  out.neg_ca += ca_hydroxide;
  out.neg_gamma += -hydroxide + 3.0 * ca_hydroxide;
  return out;
}

ReducedSystem reduce(const System& s, double h, double gamma1, bool pairs) {
  const auto& states = layout().states;
  const auto all = species();
  const auto g = powers_of(gamma1);
  const std::array<double, 4> h_powers{1.0, h, h * h, h * h * h};
  const auto weight = [&](std::size_t i) {
    return s.k[i] * h_powers[states[i].h_power] * g[states[i].gamma_power];
  };
  ReducedSystem out;
  out.total = {s.ca_total, s.mg_total, pairs ? s.na_total : 0.0, pairs ? s.k_total : 0.0};
  out.unbound[0] += s.k_caoh * (gamma1 * gamma1 * gamma1) / h;
  for (std::size_t l = 0; l < s.ligands_used; ++l) {
    const Ligand& ligand = s.ligands[l];
    ReducedLigand r;
    r.total = ligand.total;
    r.fixed = ligand.fixed;
    for (std::size_t i = ligand.first; i < ligand.ca; ++i) r.free += weight(i);
    for (std::size_t i = ligand.ca; i < ligand.mg; ++i) r.a[0] += weight(i);
    for (std::size_t i = ligand.mg; i < ligand.last; ++i) r.a[1] += weight(i);
    if (pairs)
      for (std::size_t i = ligand.last; i < all.size() && all[i].component == ligand.component; ++i)
        r.a[all[i].n_na == 1 ? 2 : 3] += weight(i);
    if (ligand.fixed) {
      const double f = ligand.total / weight(ligand.ca - 1);
      for (std::size_t j = 0; j < 4; ++j) out.unbound[j] += f * r.a[j];
    }
    out.ligands[out.ligands_used++] = r;
  }
  return out;
}

void shift_protons(System& s, double h) {
  for (std::size_t l = 0; l < s.ligands_used; ++l) {
    Ligand& ligand = s.ligands[l];
    if (ligand.fixed) continue;
    std::size_t i = ligand.first;
    while (i + 1 < ligand.ca && s.k[i + 1] * h > s.k[i]) ++i;
    ligand.n_shift = layout().states[i].n;
  }
  // Summed afresh, as a difference of the whole would bring the cancellation back.
  double total = s.strong_charge;
  for (std::size_t l = 0; l < s.ligands_used; ++l) {
    const Ligand& ligand = s.ligands[l];
    if (!ligand.fixed) total -= (charge_of(ligand.component) + ligand.n_shift) * ligand.total;
  }
  s.shifted_total = total;
}

double guess_h(const System& s, double gamma1) {
  struct Site {
    double k = 0.0, capacity = 0.0;
  };
  // Sites sorted by rising dissociation constant, so the firmest hold comes first.
  std::array<Site, 3 * ligand_count> sites{};
  std::size_t used = 0;
  const auto& states = layout().states;
  const auto g = powers_of(gamma1);
  for (std::size_t l = 0; l < s.ligands_used; ++l) {
    const Ligand& ligand = s.ligands[l];
    if (ligand.fixed) continue;
    for (std::size_t i = ligand.first + 1; i < ligand.ca; ++i) {
      if (!(s.k[i] > 0.0)) continue;
      const Site site{
          s.k[i - 1] * g[states[i - 1].gamma_power] / (s.k[i] * g[states[i].gamma_power]),
          ligand.total};
      std::size_t at = used++;
      for (; at > 0 && sites[at - 1].k > site.k; --at) sites[at] = sites[at - 1];
      sites[at] = site;
    }
  }
  // Filled sites lose lost/h, empty ones take taken * h; so do water's two ions.
  double lost = s.kw, taken = 1.0, left = s.proton_total;
  std::size_t i = 0;
  for (; i < used && left >= sites[i].capacity; ++i) {
    left -= sites[i].capacity;
    lost += sites[i].capacity * sites[i].k;
  }
  if (i < used && left >= 0.0) {
    const Site& partly = sites[i];
    for (std::size_t j = i + 1; j < used; ++j) taken += sites[j].capacity / sites[j].k;
    // Near full or empty, and where the site is small, the others decide: the ampholyte formula.
    const double low = std::sqrt(lost / (taken + partly.capacity / partly.k));
    const double high = std::sqrt((lost + partly.capacity * partly.k) / taken);
    const double share = left / partly.capacity;
    return std::clamp(partly.k * share / (1.0 - share), low, high);
  }
  for (std::size_t j = i; j < used; ++j) taken += sites[j].capacity / sites[j].k;
  // All full or all empty: what is left over, positive or negative, plus what the sites give or
  // take,
  //   taken h - lost/h = left.
  const double root = std::sqrt(left * left + 4.0 * taken * lost);
  return left < 0.0 ? 2.0 * lost / (root - left) : 0.5 * (left + root) / taken;
}

}  // namespace gelwright::detail
