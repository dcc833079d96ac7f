// The pouch rules: which conditions give which texture, from where, and how sure.
//
// The rows of one route tile its conditions: no hole, no overlap. Edges that several rows share are
// named once, so that moving one moves both sides.
#include "gelling/setting_detail.hpp"

namespace gelwright {
namespace {

using enum Defect;
using enum Texture;
using Acid = AcidDelivery;
using Calcium = CalciumDelivery;

// Gum, g per 100 g of water phase.
constexpr SetRange trace{.below = 0.1}, dilute{0.1, 0.3}, medium{0.3, 0.8}, strong{.from = 0.8};
// R2 of alginate.
constexpr SetRange bare{.below = 0.2}, low{0.2, 0.4}, fair{0.4, 0.7}, full{0.7, 1.1},
    over{.from = 1.1};
// R2 of pectin: the regions of sol, soft, good, brittle and coagulated gel.
constexpr SetRange sol{.below = 0.2}, soft_gel{0.2, 0.4}, good_gel{0.4, 0.6}, brittle_gel{0.6, 0.8},
    coagulated{.from = 0.8};
constexpr SetRange pectin_thin{.below = 0.4}, pectin_usual{0.4, 1.5}, pectin_thick{.from = 1.5};
constexpr SetRange pectin_acid{.below = 3.5}, pectin_not_acid{.from = 3.5};
// pH for alginate alone, and with HM pectin.
constexpr SetRange gritty_ph{.below = 3.4}, gel_ph{3.4, 3.8}, near_ph{3.8, 4.2},
    no_acid_ph{.from = 4.2};
constexpr SetRange alone_thin{.below = 0.5}, alone_enough{.from = 0.5};
constexpr SetRange mix_gel_ph{.below = 3.9}, mix_watch_ph{3.9, 4.3}, mix_no_ph{.from = 4.3};
constexpr SetRange mix_thin{.below = 0.15}, mix_enough{.from = 0.15};
constexpr double just_over_three_quarters = 0.75 + 1e-9;  // 3 to 1 itself belongs to the window
constexpr SetRange mix_share{0.25, just_over_three_quarters}, mix_little{.below = 0.25},
    mix_much{.from = just_over_three_quarters};
// Common practice still counts on some acid setting up to here.
constexpr double practice_ph = 4.5;
// HM pectin, soluble solids and pH of a jam.
constexpr SetRange jam_thin{.below = 0.3}, jam_enough{.from = 0.3};
constexpr SetRange jam_dilute{.below = 55}, jam_low{55, 60}, jam_full{60, 70}, jam_over{.from = 70};
constexpr SetRange jam_preset_ph{.below = 2.8}, jam_best_ph{2.8, 3.2}, jam_edge_ph{3.2, 3.5},
    jam_no_ph{.from = 3.5};
// Low-acyl gellan and its R2.
constexpr SetRange gellan_none{.below = 0.05}, gellan_low{0.05, 0.15}, gellan_usual{0.15, 0.5},
    gellan_high{.from = 0.5};
constexpr SetRange gellan_short{.below = 0.2}, gellan_some{0.2, 0.5}, gellan_best{0.5, 2.0},
    gellan_over{.from = 2.0};
constexpr SetRange gellan_sugary{.from = 40}, gellan_not_sugary{.below = 40};

constexpr Standing own = Standing::judgement;
constexpr Standing recalled = Standing::from_memory;
constexpr Standing seen = Standing::confirmed;
constexpr Standing trade = Standing::common_practice;
constexpr std::string_view judged = "judgement", practice = "common-practice";
constexpr std::string_view handbook = "draget-handbook", blends = "toft-1986", jam = "thakur-1997";
constexpr std::string_view lm = "padival-1979", lm_ph = "capel-2006", gellan = "tang-1996";

constexpr Route ca = Route::calcium_alginate, lp = Route::calcium_pectin, aa = Route::acid_alginate,
                ap = Route::acid_alginate_pectin, sp = Route::sugar_acid_pectin,
                gl = Route::gellan_low_acyl, gh = Route::gellan_high_acyl, th = Route::thickener;

// clang-format off
constexpr SetRule rules[] = {
    // Calcium and alginate: gum by ratio.
    {"calcium-alginate.1.1", ca, {.gum_percent = trace, .ratio_r2 = bare}, pours, {}, Grade::c, own,
     judged, ""},
    {"calcium-alginate.1.2", ca, {.gum_percent = trace, .ratio_r2 = low}, pours, stringy, Grade::c,
     own, judged, "strings in a liquid"},
    {"calcium-alginate.1.3", ca, {.gum_percent = trace, .ratio_r2 = fair}, bits, stringy, Grade::c,
     own, judged, "too little gum for a gel: stringy bits"},
    {"calcium-alginate.1.4", ca, {.gum_percent = trace, .ratio_r2 = full}, bits, stringy, Grade::c,
     own, judged, "too little gum for a gel: stringy bits"},
    {"calcium-alginate.1.5", ca, {.gum_percent = trace, .ratio_r2 = over}, bits, specks, Grade::c,
     own, judged, "calcium draws what gum there is into specks"},
    {"calcium-alginate.2.1", ca, {.gum_percent = dilute, .ratio_r2 = bare}, pours, {}, Grade::c,
     own, judged, ""},
    {"calcium-alginate.2.2", ca, {.gum_percent = dilute, .ratio_r2 = low}, thick, {}, Grade::c, own,
     judged, ""},
    {"calcium-alginate.2.3", ca, {.gum_percent = dilute, .ratio_r2 = fair}, soft, fragile, Grade::c,
     own, judged, ""},
    {"calcium-alginate.2.4", ca, {.gum_percent = dilute, .ratio_r2 = full}, soft, weeps, Grade::c,
     own, judged, ""},
    {"calcium-alginate.2.5", ca, {.gum_percent = dilute, .ratio_r2 = over}, bits, {lumps, weeps},
     Grade::c, own, judged, "more calcium than the gum can hold: lumps or weeping, no even set"},
    {"calcium-alginate.3.1", ca, {.gum_percent = medium, .ratio_r2 = bare}, thick, {}, Grade::c,
     own, judged, "thick from the gum itself"},
    {"calcium-alginate.3.2", ca, {.gum_percent = medium, .ratio_r2 = low}, soft, {}, Grade::c, own,
     judged, ""},
    {"calcium-alginate.3.3", ca, {.gum_percent = medium, .ratio_r2 = fair}, soft, {}, Grade::c, own,
     judged, ""},
    {"calcium-alginate.3.4", ca, {.gum_percent = medium, .ratio_r2 = full}, firm, {}, Grade::c, own,
     judged, ""},
    {"calcium-alginate.3.5", ca, {.gum_percent = medium, .ratio_r2 = over}, firm, weeps, Grade::c,
     own, judged, ""},
    {"calcium-alginate.4.1", ca, {.gum_percent = strong, .ratio_r2 = bare}, thick, {}, Grade::c,
     own, judged, "thick from the gum itself"},
    {"calcium-alginate.4.2", ca, {.gum_percent = strong, .ratio_r2 = low}, soft, {}, Grade::c, own,
     judged, ""},
    {"calcium-alginate.4.3", ca, {.gum_percent = strong, .ratio_r2 = fair}, firm, {}, Grade::b,
     recalled, "draget-1990",
     "the published internal setting: 1 % alginate, 15 mM calcium carbonate, 30 mM GDL"},
    {"calcium-alginate.4.4", ca, {.gum_percent = strong, .ratio_r2 = full}, firm, {}, Grade::c, own,
     judged, ""},
    {"calcium-alginate.4.5", ca, {.gum_percent = strong, .ratio_r2 = over}, hard, weeps, Grade::c,
     own, judged, ""},

    // Calcium and LM or amidated pectin, dissolved hot.
    {"calcium-pectin.1.0", lp, {.gum_percent = pectin_thin, .ratio_r2 = sol}, pours, {}, Grade::c,
     own, judged, ""},
    {"calcium-pectin.1.1", lp, {.gum_percent = pectin_thin, .ratio_r2 = soft_gel}, pours, {},
     Grade::c, own, judged, "below the range the gel was studied in"},
    {"calcium-pectin.1.2", lp, {.gum_percent = pectin_thin, .ratio_r2 = {0.4, 0.8}}, thick, {},
     Grade::c, own, judged, "below the range the gel was studied in"},
    {"calcium-pectin.1.3", lp, {.gum_percent = pectin_thin, .ratio_r2 = coagulated}, bits, specks,
     Grade::c, own, judged, "below the range the gel was studied in"},
    {"calcium-pectin.2.0", lp, {.gum_percent = pectin_usual, .ratio_r2 = sol, .ph = pectin_acid},
     soft, {}, Grade::b, seen, lm_ph, "little calcium: an acid gel, below pH 3.5"},
    {"calcium-pectin.2.1", lp, {.gum_percent = pectin_usual, .ratio_r2 = sol,
     .ph = pectin_not_acid}, pours, {}, Grade::b, seen, lm, ""},
    {"calcium-pectin.2.2", lp, {.gum_percent = pectin_usual, .ratio_r2 = soft_gel}, soft, {},
     Grade::b, seen, lm, "soft gel: the region is published, its edges lie between published ones"},
    {"calcium-pectin.2.3", lp, {.gum_percent = pectin_usual, .ratio_r2 = good_gel}, firm, {},
     Grade::a, seen, lm, "good gel: 40 to 50 % of the free carboxyls have reacted"},
    {"calcium-pectin.2.4", lp, {.gum_percent = pectin_usual, .ratio_r2 = brittle_gel}, firm,
     brittle, Grade::b, seen, lm,
     "brittle gel: the region is published, its edges lie between published ones"},
    {"calcium-pectin.2.5", lp, {.gum_percent = pectin_usual, .ratio_r2 = coagulated}, bits, lumps,
     Grade::a, seen, lm, "80 to 90 % of the free carboxyls have reacted: coagulates, no even set"},
    {"calcium-pectin.3.0", lp, {.gum_percent = pectin_thick, .ratio_r2 = sol, .ph = pectin_acid},
     soft, {}, Grade::c, own, judged, "above the range the gel was studied in"},
    {"calcium-pectin.3.1", lp, {.gum_percent = pectin_thick, .ratio_r2 = sol,
     .ph = pectin_not_acid}, thick, {}, Grade::c, own, judged,
     "above the range the gel was studied in"},
    {"calcium-pectin.3.2", lp, {.gum_percent = pectin_thick, .ratio_r2 = soft_gel}, soft, {},
     Grade::c, own, judged, "above the range the gel was studied in"},
    {"calcium-pectin.3.3", lp, {.gum_percent = pectin_thick, .ratio_r2 = good_gel}, firm, {},
     Grade::c, own, judged, "above the range the gel was studied in"},
    {"calcium-pectin.3.4", lp, {.gum_percent = pectin_thick, .ratio_r2 = brittle_gel}, hard,
     brittle, Grade::c, own, judged, "above the range the gel was studied in"},
    {"calcium-pectin.3.5", lp, {.gum_percent = pectin_thick, .ratio_r2 = coagulated}, bits, lumps,
     Grade::c, own, judged, "above the range the gel was studied in"},

    // Acid and alginate alone. Sudden acid precipitates, slow even acid gels: that much is
    // published, the edges are transferred.
    {"acid-alginate.1.1", aa, {.gum_percent = alone_thin, .ph = {.from = 3.8}}, pours, {}, Grade::b,
     seen, handbook, "too little alginate or acid to set"},
    {"acid-alginate.1.2", aa, {.gum_percent = alone_thin, .ph = {.below = 3.8}, .acid = {Acid::none,
     Acid::under_blade, Acid::slow}}, pours, specks, Grade::c, own, judged,
     "too little alginate for an acid gel: nothing or specks"},
    {"acid-alginate.1.3", aa, {.gum_percent = alone_thin, .ph = {.below = 3.8},
     .acid = Acid::poured}, bits, specks, Grade::c, own, judged,
     "sudden acid precipitates what alginate there is"},
    {"acid-alginate.2.1", aa, {.gum_percent = alone_enough, .ph = no_acid_ph}, pours, {}, Grade::b,
     seen, handbook, "not acid enough to set alginate"},
    {"acid-alginate.2.2", aa, {.gum_percent = alone_enough, .ph = near_ph}, thick, {}, Grade::b,
     seen, handbook, "thickens, near the edge of setting"},
    {"acid-alginate.2.3", aa, {.gum_percent = alone_enough, .ph = gel_ph, .acid = Acid::slow}, soft,
     {}, Grade::b, seen, handbook, "slow even acid gels"},
    {"acid-alginate.2.4", aa, {.gum_percent = alone_enough, .ph = gel_ph, .acid = Acid::poured},
     bits, lumps, Grade::b, seen, handbook, "sudden acid precipitates: lumps likely"},
    {"acid-alginate.2.5", aa, {.gum_percent = alone_enough, .ph = gel_ph,
     .acid = Acid::under_blade}, sheared, {}, Grade::c, trade, practice,
     "the blade breaks the gel as it forms"},
    {"acid-alginate.2.6", aa, {.gum_percent = alone_enough, .ph = gel_ph, .acid = Acid::none}, soft,
     patchy, Grade::c, own, judged, "the gum meets water that is acid already"},
    {"acid-alginate.3.1", aa, {.gum_percent = alone_enough, .ph = gritty_ph, .acid = Acid::slow},
     soft, {brittle, gritty}, Grade::b, seen, handbook, "crumbly"},
    {"acid-alginate.3.2", aa, {.gum_percent = alone_enough, .ph = gritty_ph, .acid = Acid::poured},
     bits, {lumps, gritty}, Grade::b, seen, handbook, "sudden acid precipitates"},
    {"acid-alginate.3.3", aa, {.gum_percent = alone_enough, .ph = gritty_ph,
     .acid = Acid::under_blade}, sheared, gritty, Grade::c, trade, practice,
     "the blade breaks the gel as it forms"},
    {"acid-alginate.3.4", aa, {.gum_percent = alone_enough, .ph = gritty_ph, .acid = Acid::none},
     soft, {patchy, gritty}, Grade::c, own, judged, "the gum meets water that is acid already"},
    {"acid-alginate.practice", aa, {.gum_percent = alone_enough, .ph = {no_acid_ph.from,
     practice_ph}}, thick, {}, Grade::c, trade, practice,
     "common practice counts on some setting up to pH 4.5", true},

    // Acid, high-G alginate and HM pectin.
    {"acid-alginate-pectin.0.1", ap, {.gum_percent = mix_thin}, pours, {}, Grade::b, recalled,
     blends, "too little gum"},
    {"acid-alginate-pectin.0.2", ap, {.gum_percent = mix_enough, .alginate_share = mix_little},
     pours, {}, Grade::b, recalled, blends, "too little alginate beside the pectin"},
    {"acid-alginate-pectin.0.3", ap, {.gum_percent = mix_enough, .alginate_share = mix_much}, pours,
     {}, Grade::b, recalled, blends, "too little pectin beside the alginate"},
    {"acid-alginate-pectin.1", ap, {.gum_percent = mix_enough, .alginate_share = mix_share,
     .ph = mix_no_ph}, pours, {}, Grade::b, recalled, blends, "not acid enough"},
    {"acid-alginate-pectin.2", ap, {.gum_percent = mix_enough, .alginate_share = mix_share,
     .ph = mix_watch_ph}, thick, {}, Grade::b, recalled, blends, "close to setting: watch it"},
    {"acid-alginate-pectin.3", ap, {.gum_percent = mix_enough, .alginate_share = mix_share,
     .ph = mix_gel_ph, .acid = Acid::slow}, soft, {}, Grade::b, recalled, blends,
     "slow acid sets it softly"},
    {"acid-alginate-pectin.4", ap, {.gum_percent = mix_enough, .alginate_share = mix_share,
     .ph = mix_gel_ph, .acid = Acid::poured}, bits, lumps, Grade::b, recalled, blends,
     "sudden acid makes lumps"},
    {"acid-alginate-pectin.5", ap, {.gum_percent = mix_enough, .alginate_share = mix_share,
     .ph = mix_gel_ph, .acid = Acid::under_blade}, sheared, {}, Grade::c, trade, practice,
     "the blade breaks the gel as it forms"},
    {"acid-alginate-pectin.6", ap, {.gum_percent = mix_enough, .alginate_share = mix_share,
     .ph = mix_gel_ph, .acid = Acid::none}, soft, patchy, Grade::c, own, judged,
     "the gum meets water that is acid already"},
    {"acid-alginate-pectin.practice", ap, {.gum_percent = mix_enough, .alginate_share = mix_share,
     .ph = {mix_no_ph.from, practice_ph}}, thick, {}, Grade::c, trade, practice,
     "common practice counts on some setting up to pH 4.5", true},

    // Sugar, acid and HM pectin: jam.
    {"sugar-acid-pectin.0.1", sp, {.gum_percent = jam_thin}, pours, {}, Grade::c, own, judged,
     "too little active pectin"},
    {"sugar-acid-pectin.0.2", sp, {.gum_percent = jam_enough, .soluble_solids_percent = jam_dilute},
     pours, {}, Grade::a, recalled, jam, "too much water: needs over 55 % soluble solids"},
    {"sugar-acid-pectin.0.3", sp, {.gum_percent = jam_enough,
     .soluble_solids_percent = {.from = 55}, .heated = Need::no}, pours, {}, Grade::b, recalled,
     jam, "the pectin was not heated enough to dissolve"},
    {"sugar-acid-pectin.0.4", sp, {.gum_percent = jam_enough, .ph = jam_no_ph,
     .soluble_solids_percent = {.from = 55}, .heated = Need::yes}, pours, {}, Grade::a, recalled,
     jam, "not acid enough: needs a pH below 3.5"},
    {"sugar-acid-pectin.1.1", sp, {.gum_percent = jam_enough, .ph = jam_preset_ph,
     .soluble_solids_percent = jam_low, .heated = Need::yes}, soft, {presets, weeps}, Grade::b,
     recalled, jam, "too acid"},
    {"sugar-acid-pectin.1.2", sp, {.gum_percent = jam_enough, .ph = jam_best_ph,
     .soluble_solids_percent = jam_low, .heated = Need::yes}, soft, {}, Grade::b, recalled, jam,
     ""},
    {"sugar-acid-pectin.1.3", sp, {.gum_percent = jam_enough, .ph = jam_edge_ph,
     .soluble_solids_percent = jam_low, .heated = Need::yes}, soft, fragile, Grade::c, own, judged,
     "at the edge in both sugar and acid"},
    {"sugar-acid-pectin.2.1", sp, {.gum_percent = jam_enough, .ph = jam_preset_ph,
     .soluble_solids_percent = jam_full, .heated = Need::yes}, firm, {presets, weeps}, Grade::b,
     recalled, jam, "too acid"},
    {"sugar-acid-pectin.2.2", sp, {.gum_percent = jam_enough, .ph = jam_best_ph,
     .soluble_solids_percent = jam_full, .heated = Need::yes}, firm, {}, Grade::a, recalled, jam,
     ""},
    {"sugar-acid-pectin.2.3", sp, {.gum_percent = jam_enough, .ph = jam_edge_ph,
     .soluble_solids_percent = jam_full, .heated = Need::yes}, soft, {}, Grade::b, recalled, jam,
     ""},
    {"sugar-acid-pectin.3.1", sp, {.gum_percent = jam_enough, .ph = jam_preset_ph,
     .soluble_solids_percent = jam_over, .heated = Need::yes}, firm, {presets, weeps}, Grade::c,
     own, judged, "more sugar than the published range"},
    {"sugar-acid-pectin.3.2", sp, {.gum_percent = jam_enough, .ph = {2.8, 3.5},
     .soluble_solids_percent = jam_over, .heated = Need::yes}, firm, {}, Grade::c, own, judged,
     "more sugar than the published range"},

    // Low-acyl gellan, hydrated hot or with citrate before the sugar.
    {"gellan-low-acyl.0.1", gl, {.soluble_solids_percent = gellan_not_sugary, .hydrated = Need::no},
     pours, patchy, Grade::c, own, judged, "gum not hydrated: what dissolves sets in patches"},
    {"gellan-low-acyl.0.2", gl, {.soluble_solids_percent = gellan_sugary, .hydrated = Need::no},
     pours, specks, Grade::b, trade, practice, "gum not hydrated before the sugar: will not set"},
    {"gellan-low-acyl.0.3", gl, {.gum_percent = gellan_none, .hydrated = Need::yes}, pours, {},
     Grade::b, recalled, gellan, "too little gum"},
    {"gellan-low-acyl.1.1", gl, {.gum_percent = gellan_low, .ratio_r2 = gellan_short,
     .hydrated = Need::yes}, thick, {}, Grade::c, own, judged, "little calcium"},
    {"gellan-low-acyl.1.2", gl, {.gum_percent = gellan_low, .ratio_r2 = gellan_some,
     .hydrated = Need::yes}, soft, {}, Grade::c, own, judged, ""},
    {"gellan-low-acyl.1.3", gl, {.gum_percent = gellan_low, .ratio_r2 = gellan_best,
     .hydrated = Need::yes}, firm, {}, Grade::c, own, judged,
     "soft to firm; strongest at a ratio of 1"},
    {"gellan-low-acyl.1.4", gl, {.gum_percent = gellan_low, .ratio_r2 = gellan_over,
     .hydrated = Need::yes}, soft, {brittle, weeps}, Grade::b, recalled, gellan,
     "calcium well above the optimum weakens the gel"},
    {"gellan-low-acyl.2.1", gl, {.gum_percent = gellan_usual, .ratio_r2 = gellan_short,
     .hydrated = Need::yes}, soft, {}, Grade::c, own, judged, "little calcium"},
    {"gellan-low-acyl.2.2", gl, {.gum_percent = gellan_usual, .ratio_r2 = gellan_some,
     .hydrated = Need::yes}, firm, {}, Grade::c, own, judged, ""},
    {"gellan-low-acyl.2.3", gl, {.gum_percent = gellan_usual, .ratio_r2 = gellan_best,
     .hydrated = Need::yes}, firm, {}, Grade::b, seen, gellan, "strongest at a ratio of 1"},
    {"gellan-low-acyl.2.4", gl, {.gum_percent = gellan_usual, .ratio_r2 = gellan_over,
     .hydrated = Need::yes}, firm, {brittle, weeps}, Grade::b, recalled, gellan,
     "calcium well above the optimum weakens the gel"},
    {"gellan-low-acyl.3.1", gl, {.gum_percent = gellan_high, .ratio_r2 = {.below = 0.5},
     .hydrated = Need::yes}, firm, {}, Grade::c, own, judged, ""},
    {"gellan-low-acyl.3.2", gl, {.gum_percent = gellan_high, .ratio_r2 = gellan_best,
     .hydrated = Need::yes}, hard, {}, Grade::c, own, judged, ""},
    {"gellan-low-acyl.3.3", gl, {.gum_percent = gellan_high, .ratio_r2 = gellan_over,
     .hydrated = Need::yes}, hard, {brittle, weeps}, Grade::c, own, judged,
     "calcium well above the optimum"},

    // High-acyl gellan: soft whatever the ions.
    {"gellan-high-acyl.0", gh, {.hydrated = Need::no}, pours, patchy, Grade::c, own, judged,
     "gum not hydrated before the sugar"},
    {"gellan-high-acyl.1", gh, {.gum_percent = {.below = 0.05}, .hydrated = Need::yes}, pours, {},
     Grade::c, own, judged, ""},
    {"gellan-high-acyl.2", gh, {.gum_percent = {0.05, 0.2}, .hydrated = Need::yes}, thick, {},
     Grade::c, own, judged, ""},
    {"gellan-high-acyl.3", gh, {.gum_percent = {.from = 0.2}, .hydrated = Need::yes}, soft, {},
     Grade::c, own, judged, "soft and elastic, with or without calcium"},

    // Xanthan never sets.
    {"thickener.1", th, {.gum_percent = {.below = 0.1}}, pours, {}, Grade::c, own, judged, ""},
    {"thickener.2", th, {.gum_percent = {.from = 0.1}}, thick, {}, Grade::c, own, judged,
     "thickens, never sets"},
};
// clang-format on

// Below this much alginate a drink shows no acid gel once calcium has spread the gum.
constexpr SetRange drink{.below = value_of(setting_table, "drink.alginate_below")};
constexpr SetRange calcium_present{.from = value_of(setting_table, "calcium.absent_below_r2")};

// clang-format off
constexpr SetAdjustment adjustments[] = {
    {"calcium-alginate.low-guluronate", ca, {.gum_percent = {.from = 0.1},
     .ratio_r2 = {.from = 0.2}, .guluronate_share = {.below = 0.4}}, -1, hard, {}, false, Grade::c,
     own, judged, "alginate poor in guluronate: one class softer"},
    {"calcium-alginate.high-guluronate", ca, {.gum_percent = {.from = 0.1},
     .ratio_r2 = {.from = 0.2}, .guluronate_share = {.from = 0.6}}, 1, hard, {}, false, Grade::c,
     own, judged, "alginate rich in guluronate: one class firmer"},
    {"calcium-alginate.fast", ca, {.ratio_r2 = {.from = 0.3}, .calcium = Calcium::fast}, 0, bits,
     lumps, false, Grade::b, recalled, handbook, "calcium all at once sets the gum where it lands"},
    {"calcium-alginate.acid", ca, {.ph = {.below = 4.2}}, 0, hard, {}, false, Grade::c, own, judged,
     "more acid than the table was made for; acid setting is judged beside it"},
    {"calcium-pectin.fast", lp, {.ratio_r2 = {.from = 0.3}, .calcium = Calcium::fast}, 0, bits,
     lumps, false, Grade::c, own, judged, "calcium all at once sets the gum where it lands"},
    {"calcium-pectin.acid", lp, {.ratio_r2 = {.from = 0.2}, .ph = {.below = 4.5}}, 0, hard, {},
     false, Grade::b, seen, lm_ph, "calcium sets pectin best above pH 4.5"},
    {"calcium-pectin.sugar", lp, {.ratio_r2 = {.from = 0.2}, .soluble_solids_percent = {.from = 60},
     .amidated = Need::no}, 0, hard, patchy, false, Grade::b, seen, "lofgren-2007",
     "at 60 % solids plain LM pectin forms microgels, not one gel"},
    {"calcium-pectin.cold", lp, {.heated = Need::no}, 0, hard, patchy, false, Grade::c, own, judged,
     "pectin not heated: it may not have dissolved"},
    {"acid-alginate.calcium-first", aa, {.alginate_percent = drink,
     .early_ratio_r2 = calcium_present, .ph = {.below = 3.8}}, 0, pours, specks, true, Grade::c,
     own, judged,
     "calcium met the gum first and has spread it thin: nothing or specks when acid comes"},
    {"acid-alginate-pectin.calcium-first", ap, {.alginate_percent = drink,
     .early_ratio_r2 = calcium_present, .ph = mix_watch_ph}, 0, pours, {}, true, Grade::c, own,
     judged, "calcium met the gum first and has spread it thin"},
    {"acid-alginate-pectin.calcium-first-acid", ap, {.alginate_percent = drink,
     .early_ratio_r2 = calcium_present, .ph = mix_gel_ph}, 0, pours, specks, true, Grade::c, own,
     judged, "calcium met the gum first and has spread it thin: nothing or specks when acid comes"},
    {"acid-alginate-pectin.low-guluronate", ap, {.gum_percent = mix_enough, .ph = {.below = 4.3},
     .guluronate_share = {.below = 0.45}}, -1, hard, {}, false, Grade::b, recalled, blends,
     "alginate poor in guluronate: weak or none"},
    {"acid-alginate-pectin.low-ester", ap, {.gum_percent = mix_enough, .ph = {.below = 4.3},
     .hm_pectin_esterification = {.below = 0.6}}, -1, hard, {}, false, Grade::b, recalled, blends,
     "pectin with too few ester groups: weak or none"},
    {"sugar-acid-pectin.maltodextrin", sp, {.gum_percent = jam_enough, .ph = {.below = 3.5},
     .soluble_solids_percent = {.from = 55}, .maltodextrin_share = {.from = 0.4},
     .heated = Need::yes}, -1, hard, {}, false, Grade::c, own, judged,
     "unproven with this carbohydrate: one class softer"},
};
// clang-format on

}  // namespace

SetTable pouch_table() {
  return {rules, adjustments};
}
std::span<const SetRule> setting_rules() {
  return rules;
}

}  // namespace gelwright
