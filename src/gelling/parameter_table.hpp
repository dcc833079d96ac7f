// The parameters of the gel model. Log10 values are written out; the number meant stands beside.
//
// What was recalled or chosen is grade C: a prediction that leans on it has to be tried in a cup.
#pragma once

#include "gelwright/gel_parameters.hpp"

namespace gelwright::gel::detail {

inline constexpr Parameter parameter_table[] = {
    {Id::k_ca, "gel.k.ca", 3.15, 0.35, "log10 Pa", "draget-1990", Known::memory, Grade::c, Shift::strength, "calcium alginate, saturated, 1 g per 100 mL: a few kPa by recollection; with it the binding level below fits published 6, 8 and 10 mM gels"},
    {Id::k_acid, "gel.k.acid", 2.9, 0.5, "log10 Pa", "de-celis-2010", Known::judgement, Grade::c, Shift::strength, "acid alginate, 1 g per 100 mL, F_G .60: below calcium gels in compression; the size is ours"},
    {Id::k_blend, "gel.k.blend", 3.0, 0.4, "log10 Pa", "marciani-2019", Known::memory, Grade::c, Shift::strength, "alginate with HM pectin in acid, half and half: a weak gel at .2 %"},
    {Id::k_lm, "gel.k.lm", 2.9, 0.35, "log10 Pa", "fu-rao-2001", Known::memory, Grade::c, Shift::strength, "LM pectin with calcium, 1 g per 100 mL: the order of size only"},
    {Id::k_lmacid, "gel.k.lmacid", 1.7, 0.5, "log10 Pa", "capel-2006", Known::memory, Grade::c, Shift::strength, "LM pectin in acid without calcium: the order of size only"},
    {Id::k_jam, "gel.k.jam", 3.2, 0.25, "log10 Pa", "nielsen-2001", Known::abstract, Grade::a, Shift::strength, "HM pectin in sugar and acid: the standard jelly, 379 to 429 Pa"},
    {Id::k_la, "gel.k.la", 4.45, 0.3, "log10 Pa", "morris-2012", Known::memory, Grade::c, Shift::strength, "low-acyl gellan: 20 to 30 kPa at 1 %, the order of size"},
    {Id::k_ha, "gel.k.ha", 3.3, 0.3, "log10 Pa", "morris-2012", Known::memory, Grade::c, Shift::strength, "high-acyl gellan, the order of size"},
    {Id::res, "gel.res", 0.0, 0.25, "log10 Pa", "fu-2011", Known::judgement, Grade::c, Shift::strength, "gums equal on paper still differ"},
    {Id::c_ca, "gel.c.ca", -0.6020599913279624, 0.2, "log10 g/100 mL", "khavari-2016", Known::judgement, Grade::c, Shift::strength, "calcium alginate is felt from here: it percolates at .1 % (log10 of 0.25)"},
    {Id::c_acid, "gel.c.acid", -0.3979400086720376, 0.15, "log10 g/100 mL", "peters-2011", Known::judgement, Grade::c, Shift::strength, "acid alginate is felt from here: the published slope gives .45, moved towards common practice (log10 of 0.4)"},
    {Id::c_blend, "gel.c.blend", -0.9208187539523752, 0.2, "log10 g/100 mL", "marciani-2019", Known::abstract, Grade::b, Shift::strength, "alginate with HM pectin is felt from here: .2 % of a drink gels (log10 of 0.12)"},
    {Id::c_lm, "gel.c.lm", -0.6020599913279624, 0.2, "log10 g/100 mL", "lofgren-2007", Known::judgement, Grade::c, Shift::strength, "LM pectin with calcium is felt from here: it sets at .4 to .6 g (log10 of 0.25)"},
    {Id::c_lmacid, "gel.c.lmacid", -0.3010299956639812, 0.2, "log10 g/100 mL", "judgement", Known::judgement, Grade::c, Shift::strength, "LM pectin in acid is felt from here (log10 of 0.5)"},
    {Id::c_jam, "gel.c.jam", -0.8239087409443188, 0.2, "log10 g/100 mL", "judgement", Known::judgement, Grade::c, Shift::strength, "HM pectin jam is felt from here: citrus is weak under .5 to 1 % of everything (log10 of 0.15)"},
    {Id::c_la, "gel.c.la", -1.3979400086720375, 0.2, "log10 g/100 mL", "gum-makers", Known::secondary, Grade::b, Shift::strength, "low-acyl gellan is felt from here: .05 % sets, .03 % suspends (log10 of 0.04)"},
    {Id::c_ha, "gel.c.ha", -1.3010299956639813, 0.2, "log10 g/100 mL", "judgement", Known::judgement, Grade::c, Shift::strength, "high-acyl gellan is felt from here (log10 of 0.05)"},
    {Id::fg_ca, "gel.fg.ca", 2.0, 0.8, "log10 per F_G", "smidsrod-1972", Known::memory, Grade::c, Shift::strength, "guluronate firms a calcium gel"},
    {Id::fg_acid, "gel.fg.acid", 4.0, 2.0, "log10 per F_G", "draget-2003", Known::judgement, Grade::c, Shift::strength, "guluronate firms an acid gel: far above by print, the slope of 11 shrunk to 4"},
    {Id::fg_ph, "gel.fg.ph", 2.0, 1.0, "pH per F_G", "toft-1986", Known::memory, Grade::c, Shift::ph, "guluronate lifts the pH at which alginate with HM pectin sets: direction only"},
    {Id::ca_a, "gel.ca.a", -0.09691001300805639, 0.3, "log10 mmol/kg", "khavari-2016", Known::abstract, Grade::b, Shift::calcium, "calcium left free at ionic strength 15 mmol/kg: two published systems agree with .3 to 1 (log10 of 0.8)"},
    {Id::ca_n, "gel.ca.n", 0.8, 0.4, "1", "leroux-1999", Known::judgement, Grade::c, Shift::calcium, "sodium and potassium compete with calcium: the sign is published"},
    {Id::ca_b, "gel.ca.b", -0.43062609038495414, 0.15, "log10 mmol per mmol COO", "cuomo-2019", Known::secondary, Grade::b, Shift::calcium, "calcium bound by alginate at half the way: fits 6, 8 and 10 mM (log10 of 0.371)"},
    {Id::ca_blm, "gel.ca.blm", -0.8239087409443188, 0.2, "log10 mmol per mmol COO", "padival-1979", Known::judgement, Grade::c, Shift::calcium, "calcium bound by LM pectin at half the way (log10 of 0.15)"},
    {Id::ca_s, "gel.ca.s", 3.5, 0.7, "1", "cuomo-2019", Known::secondary, Grade::b, Shift::none, "steepness in calcium: 3.15 by that series"},
    {Id::ca_pk, "gel.ca.pk", 3.3, 0.3, "pH", "draget-handbook", Known::secondary, Grade::b, Shift::none, "acid takes half the calcium from the gum: pKa 3.38 and 3.65, LM pectin 3.55"},
    {Id::ca_ss, "gel.ca.ss", -0.005, 0.002, "log10 per % solids", "whittaker-1997", Known::judgement, Grade::c, Shift::none, "LM pectin and gellan need less calcium in sugar: size guessed"},
    {Id::lm_x, "gel.lm.x", 0.3010299956639812, 0.2, "log10 R", "lofgren-2007", Known::abstract, Grade::b, Shift::none, "LM pectin turns grainy with more calcium: R 1.1 fails in 60 % sugar and holds in 30 % (log10 of 2)"},
    {Id::lm_xss, "gel.lm.xss", -0.012, 0.004, "log10 per % solids", "lofgren-2007", Known::abstract, Grade::b, Shift::none, "the same edge slides down with sugar"},
    {Id::lm_gain, "gel.lm.gain", 0.36, 0.12, "log10", "fu-rao-2001", Known::judgement, Grade::c, Shift::none, "sugar firms LM pectin: direction published, size guessed"},
    {Id::lm_acidss, "gel.lm.acidss", 0.01, 0.004, "log10 per % solids", "lofgren-2002", Known::judgement, Grade::c, Shift::none, "sugar firms the acid gel of LM pectin: weak gel in 60 % sucrose"},
    {Id::ph_h, "gel.ph.h", 3.0, 0.8, "1 per pH", "draget-1996", Known::secondary, Grade::b, Shift::none, "steepness in pH: gone by pH 4, viscosity at its most at 3 to 3.5"},
    {Id::ph_acid, "gel.ph.acid", 3.5, 0.25, "pH", "draget-1996", Known::secondary, Grade::b, Shift::ph, "alginate alone, half the acid gel"},
    {Id::ph_blend, "gel.ph.blend", 3.65, 0.25, "pH", "guo-2016", Known::memory, Grade::c, Shift::ph, "alginate with HM pectin, half the acid gel: gels at 3 and below, dissolves above 5; trade 3.8 to 4"},
    {Id::ph_de, "gel.ph.de", 0.02, 0.01, "pH per % ester", "toft-1986", Known::memory, Grade::c, Shift::none, "more ester lifts that pH"},
    {Id::ph_lm, "gel.ph.lm", 3.1, 0.25, "pH", "capel-2006", Known::abstract, Grade::b, Shift::ph, "LM pectin in acid: under 3.5; another report 3 and below"},
    {Id::ph_jam, "gel.ph.jam", 3.3, 0.2, "pH", "lofgren-2005", Known::abstract, Grade::b, Shift::ph, "HM pectin jam at 65 % solids: a gel at 3.5 is slow, none above"},
    {Id::amid_ph, "gel.amid.ph", 0.3, 0.15, "pH", "capel-2006", Known::judgement, Grade::c, Shift::none, "amidation helps the acid gel: in pH"},
    {Id::amid_k, "gel.amid.k", 0.5, 0.3, "log10 Pa", "capel-2006", Known::judgement, Grade::c, Shift::none, "amidation helps the acid gel: in strength"},
    {Id::jam_ss, "gel.jam.ss", 60.0, 2.0, "% solids", "gum-makers", Known::secondary, Grade::b, Shift::none, "HM pectin jam needs this much: 55 to 60 in the trade, at 20 degC"},
    {Id::jam_slope, "gel.jam.slope", 0.2, 0.05, "log10 per %", "judgement", Known::judgement, Grade::c, Shift::none, "how fast the jam gel goes with missing solids"},
    {Id::jam_cold, "gel.jam.cold", -5.0, 2.0, "% solids per 15 degC colder", "tsoga-2004", Known::abstract, Grade::b, Shift::none, "50 % is enough at 5 degC"},
    {Id::jam_coldph, "gel.jam.coldph", 0.2, 0.15, "pH per 15 degC colder", "evageliou-2000", Known::abstract, Grade::b, Shift::none, "pH 4.7 is critical at 5 degC"},
    {Id::jam_phss, "gel.jam.phss", 0.04, 0.02, "pH per % solids", "judgement", Known::judgement, Grade::c, Shift::none, "more solids forgive less acid"},
    {Id::jam_md, "gel.jam.md", -4.0, 6.0, "% solids as pure maltodextrin", "judgement", Known::judgement, Grade::c, Shift::none, "maltodextrin in place of sugar: nothing published"},
    {Id::la_q, "gel.la.q", -0.3010299956639812, 0.15, "log10 Q", "tang-1996", Known::abstract, Grade::b, Shift::calcium, "low-acyl gellan, half its ions (log10 of 0.5)"},
    {Id::la_own, "gel.la.own", 0.17, 0.1, "Q", "gum-makers", Known::memory, Grade::c, Shift::calcium, "ions the gum brings: one grade .39, cleaner ones .1 to .2"},
    {Id::la_x, "gel.la.x", 0.7781512503836436, 0.3, "log10 Q", "tang-1996", Known::judgement, Grade::c, Shift::none, "weaker beyond the best; another report strong at R 4.5 (log10 of 6)"},
    {Id::la_na, "gel.la.na", 1.3979400086720377, 0.2, "log10 Na per COO", "tang-1996", Known::abstract, Grade::b, Shift::none, "sodium that does the work of the best calcium: 10 to 30 per repeat (log10 of 25)"},
    {Id::la_h, "gel.la.h", 0.5, 0.3, "Q", "tako-1989", Known::judgement, Grade::c, Shift::none, "acid gels it at pH 2.6: size guessed"},
    {Id::la_t, "gel.la.t", 22.0, 6.0, "degC", "handbook-hydrocolloids", Known::secondary, Grade::b, Shift::none, "setting temperature in clean water: 25 to 60 over salts"},
    {Id::la_ss, "gel.la.ss", 45.0, 5.0, "% solids", "whittaker-1997", Known::judgement, Grade::c, Shift::none, "low modulus at 60 % and above: the bend is guessed"},
    {Id::hyd_r, "gel.hyd.r", -0.22184874961635637, 0.2, "log10 R", "gum-makers", Known::judgement, Grade::c, Shift::none, "calcium met per carboxylate at which half the alginate stays undissolved (log10 of 0.6)"},
    {Id::hyd_t, "gel.hyd.t", -0.6020599913279624, 0.4, "log10 h", "gum-makers", Known::judgement, Grade::c, Shift::none, "time to dissolve: 30 min of stirring in clean water (log10 of 0.25)"},
    {Id::pour_e, "gel.pour.e", -0.09691001300805639, 0.12, "log10 share left even", "draget-handbook", Known::judgement, Grade::c, Shift::none, "what poured acid leaves spread evenly: sudden acid curdles (log10 of 0.8)"},
    {Id::shear, "gel.shear", -1.1, 0.4, "log10", "fernandez-farres-2013", Known::memory, Grade::c, Shift::none, "a gel broken as it forms is one to two decades softer"},
    {Id::tau, "gel.tau", 0.3010299956639812, 0.3, "log10 h", "draget-2003", Known::abstract, Grade::b, Shift::none, "most of the setting is over within 2 h of its onset (log10 of 2)"},
    {Id::hot, "gel.hot", -1.5, 0.5, "log10", "judgement", Known::judgement, Grade::c, Shift::none, "pectin that was never hot"},
    {Id::v_sugar, "gel.v.sugar", 0.0, 0.02, "log10", "bubnik-1995", Known::memory, Grade::c, Shift::none, "viscosity of sugar syrups, 40 to 70 % sucrose"},
    {Id::v_md, "gel.v.md", 0.0, 0.25, "log10 at 60 % maltodextrin", "judgement", Known::memory, Grade::c, Shift::viscosity, "viscosity of maltodextrin syrups"},
    {Id::v_alg, "gel.v.alg", 0.0, 0.05, "log10 [eta]", "gum-makers", Known::secondary, Grade::b, Shift::viscosity, "intrinsic viscosity of an alginate of named grade: catalogues at 1 and 2 %"},
    {Id::v_gum, "gel.v.gum", 0.0, 0.15, "log10 [eta]", "judgement", Known::judgement, Grade::c, Shift::viscosity, "intrinsic viscosity of the other gums"},
    {Id::v_xan, "gel.v.xan", 0.0, 0.2, "log10", "thickeners-2018", Known::memory, Grade::c, Shift::viscosity, "xanthan: 48, 126, 287 and 1050 mPa.s in a table of thickened drinks"},
    {Id::y_still, "gel.y.still", -0.1549019599857432, 0.2, "log10 strain", "judgement", Known::memory, Grade::c, Shift::none, "yield stress over G' of a gel at rest (log10 of 0.7)"},
    {Id::y_shear, "gel.y.shear", -1.0, 0.3, "log10 strain", "judgement", Known::memory, Grade::c, Shift::none, "the same of a broken gel (log10 of 0.1)"},
};

/// Uncertainty of `v.alg` where the pack names no viscosity.
inline constexpr double unnamed_grade_sd = 0.17;

/// log10 by which one cup of a mix differs from the next, beyond what the shifts explain.
inline constexpr double cup_to_cup_sd = 0.15;

}  // namespace gelwright::gel::detail
