#include "gelwright/source.hpp"

#include <algorithm>

namespace gelwright {

namespace {

// Sorted by id.
constexpr Source bibliography[] = {
    {"acsm-2007-fluid",
     "Sawka M.N. et al. 2007, American College of Sports Medicine position stand: exercise and "
     "fluid replacement, Med. Sci. Sports Exerc. 39:377"},
    {"agoub-2014",
     "Agoub A., Hasan M. 2014, acid gels of a high-guluronate alginate with glucono delta-lactone, "
     "doi 10.21608/jfds.2014.52762 (abstract)"},
    {"arithmetic", "Follows from the recipe's own figures"},
    {"baker-2016",
     "Baker L.B. et al. 2016, Normative data for regional sweat sodium concentration and "
     "whole-body "
     "sweating rate in athletes, J. Sports Sci. 34:358 (abstract)"},
    {"bates-1942",
     "Bates F.J. et al. 1942, Polarimetry, saccharimetry and the sugars, NBS Circular 440"},
    {"belsley-1980", "Belsley D.A., Kuh E., Welsch R.E. 1980, Regression Diagnostics, Wiley"},
    {"brodkorb-2019",
     "Brodkorb A. et al. 2019, INFOGEST static in vitro simulation of gastrointestinal food "
     "digestion, Nat. Protoc. 14:991"},
    {"bubnik-1995",
     "Bubnik Z., Kadlec P., Urban D., Bruhns M. 1995, Sugar Technologists Manual, 8th ed., "
     "Bartens, p. 164"},
    {"capel-2006",
     "Capel F., Nicolai T., Durand D., Boulenguer P., Langendorff V. 2006, Calcium and acid "
     "induced gelation of (amidated) low methoxyl pectin, Food Hydrocolloids 20:901"},
    {"cfr-21-114", "21 CFR Part 114, Acidified Foods (114.3, 114.90)"},
    {"charles-1960",
     "Charles D.F. 1960, The solubility of pure sucrose in water, Int. Sugar J. 62:126"},
    {"chirife-1982",
     "Chirife J., Favetto G., Ferro Fontan C. 1982, The water activity of fructose solutions in "
     "the intermediate moisture range, Lebensm.-Wiss. Technol. 15:159; equation of Norrish R.S. "
     "1966, J. Food Technol. 1:25"},
    {"ciavatta-2001",
     "Ciavatta L. et al. 2001, solubility of tricalcium citrate tetrahydrate; Boulet M., Marier "
     "J.R. 1960, J. Dairy Sci. 43:155"},
    {"common-practice", "A habit of the trade, no source"},
    {"corn-refiners-2006",
     "Corn Refiners Association 2006, Nutritive Sweeteners from Corn, 8th ed. (saccharides of "
     "glucose syrups)"},
    {"crc-solubility",
     "Haynes W.M. (ed.), CRC Handbook of Chemistry and Physics, Aqueous solubility of inorganic "
     "compounds at various temperatures; Physical constants of organic compounds"},
    {"cuomo-2019",
     "Cuomo F., Cofelice M., Lopez F. 2019, Polymers 11:259, doi 10.3390/polym11020259 (figures "
     "quoted in Polymers 15:1558, 2023)"},
    {"davies-1962", "Davies C.W. 1962, Ion Association, Butterworths, London"},
    {"de-celis-2010",
     "de Celis Alonso B. et al. 2010, Carbohydr. Polym. 82:663 (acid and ionic alginate gels, "
     "abstract)"},
    {"draget-1990",
     "Draget K.I., Ostgaard K., Smidsrod O. 1990, Homogeneous alginate gels: a technical approach, "
     "Carbohydr. Polym. 14:159"},
    {"draget-1996",
     "Draget K.I. et al. 1996, swelling of alginic acid gel beads in acidic buffer (abstract); "
     "viscosity against pH in Belitz H.-D., Grosch W., Food Chemistry"},
    {"draget-2003",
     "Draget K.I., Stokke B.T., Yuguchi Y., Urakawa H., Kajiwara K. 2003, Biomacromolecules 4:1661 "
     "(alginic acid gels, abstract)"},
    {"draget-handbook",
     "Draget K.I., Alginates, in Phillips G.O., Williams P.A. (eds), Handbook of Hydrocolloids"},
    {"ec-tolerances-2012",
     "European Commission 2012, Guidance document for competent authorities with regard to the "
     "setting of tolerances for nutrient values declared on a label"},
    {"edis-aa142",
     "Sanford M.T., Atkinson E., Klopchin J., Ellis J. 2013, Infant botulism and honey, University "
     "of Florida IFAS, EDIS AA142"},
    {"efsa-2004-minicups",
     "EFSA 2004, opinion on the use of certain gelling agents in jelly mini-cups, EFSA Journal 82"},
    {"efsa-2005-potassium",
     "EFSA 2005, Opinion on the tolerable upper intake level of potassium, EFSA Journal 193"},
    {"efsa-2012-calcium",
     "EFSA 2012, Scientific opinion on the tolerable upper intake level of calcium, EFSA Journal "
     "10(7):2814"},
    {"efsa-2015-caffeine",
     "EFSA 2015, Scientific opinion on the safety of caffeine, EFSA Journal 13(5):4102"},
    {"eu-1169-2011", "Regulation (EU) No 1169/2011, Annexes I, II and XIV, OJ L 304"},
    {"eu-1272-2008",
     "Regulation (EC) No 1272/2008 (classification, labelling, packaging), Annex I, 3.2, OJ L 353"},
    {"eu-2020-2184", "Directive (EU) 2020/2184 on drinking water, Annex I part C, OJ L 435"},
    {"eu-231-2012",
     "Commission Regulation (EU) No 231/2012, specifications for food additives (E 401, E 415, E "
     "418, E 440)"},
    {"evageliou-2000",
     "Evageliou V. et al. 2000, Carbohydr. Polym. 42:245 (HM pectin: pH, sugars, heat; abstract)"},
    {"fang-2007",
     "Fang Y. et al. 2007, Multiple steps and critical behaviors of the binding of calcium to "
     "alginate, J. Phys. Chem. B 111:2456"},
    {"fda-food-code-2013",
     "US Food and Drug Administration 2013, Food Code, 3-501.14 Cooling; 1-201.10, "
     "time/temperature control for safety food, tables A and B (read in two transcriptions)"},
    {"fernandez-farres-2013",
     "Fernandez Farres I., Douaire M., Norton I.T. 2013, Food Hydrocolloids 32:115 (calcium "
     "alginate fluid gels; title and list only)"},
    {"fu-2011",
     "Fu S. et al. 2011, AAPS PharmSciTech, PMC3134659 (alginate solutions and their calcium "
     "gels)"},
    {"fu-rao-2001",
     "Fu J.-T., Rao M.A. 2001, Food Hydrocolloids 15:93, doi 10.1016/S0268-005X(00)00056-4 (LM "
     "pectin gels with sucrose, abstract)"},
    {"gum-makers",
     "Technical pages of gum makers and suppliers: viscosity grades, dissolving, dosage, setting "
     "of jellies (several that agree)"},
    {"guo-2016",
     "Guo J., Kaletunc G. 2016, Food Res. Int., doi 10.1016/j.foodres.2016.05.020 (alginate and "
     "pectin particles against pH, abstract)"},
    {"handbook-hydrocolloids",
     "Phillips G.O., Williams P.A. (eds), Handbook of Hydrocolloids, tables on gellan gum"},
    {"haug-1964",
     "Haug A. 1964, Composition and properties of alginates, Norwegian Institute of Seaweed "
     "Research, report 30 (pKa of the residues)"},
    {"iddsi-2019",
     "International Dysphagia Diet Standardisation Initiative 2019, Framework and detailed level "
     "definitions (flow test)"},
    {"iupac-2021",
     "Prohaska T. et al. 2022, Standard atomic weights of the elements 2021, Pure Appl. Chem. "
     "94:573"},
    {"jackson-1922",
     "Jackson R.F., Silsbee C.G. 1922, The solubility of dextrose in water, Sci. Pap. Bur. Stand. "
     "17:715"},
    {"jcgm-100", "JCGM 100:2008, Guide to the expression of uncertainty in measurement"},
    {"jeukendrup-2014",
     "Jeukendrup A. 2014, A step towards personalized sports nutrition: carbohydrate intake during "
     "exercise, Sports Med. 44 (Suppl. 1):S25"},
    {"judgement", "Our own choice where nothing better is known: test it on the bench first"},
    {"kell-1975",
     "Kell G.S. 1975, Density, thermal expansivity, and compressibility of liquid water, J. Chem. "
     "Eng. Data 20:97"},
    {"khavari-2016",
     "Khavari et al. 2016, calcium and a mannuronate-rich alginate near the gel point by light "
     "scattering, Carbohydr. Polym. 137:480 (abstract)"},
    {"kubantseva-2004",
     "Kubantseva N., Hartel R.W., Swearingen P.A. 2004, Factors affecting solubility of calcium "
     "lactate in aqueous solutions, J. Dairy Sci. 87:863"},
    {"leroux-1999",
     "LeRoux M.A., Guilak F., Setton L.A. 1999, J. Biomed. Mater. Res. (alginate gels in salt "
     "water, quoted elsewhere)"},
    {"lofgren-2002",
     "Lofgren C. et al. 2002, Biomacromolecules 3:1144 (pure and mixed pectin gels, abstract)"},
    {"lofgren-2005",
     "Lofgren C. et al. 2005, Biomacromolecules 6:646 (HM pectin: calcium, pH and blockiness, "
     "abstract)"},
    {"lofgren-2007",
     "Lofgren C., Hermansson A.-M. 2007, Synergistic rheological behaviour of mixed HM/LM pectin "
     "gels, Food Hydrocolloids 21:480"},
    {"lowe-1937",
     "Lowe B. 1937, Experimental Cookery, 2nd ed., Wiley (solubility of maltose by Gillis)"},
    {"makinen-2010",
     "Makinen K.K. 2010, Sugar alcohols, caries incidence, and remineralization of caries lesions: "
     "a literature review, Int. J. Dent. 2010:981072, table 3"},
    {"marciani-2019",
     "Marciani L. et al. 2019, Food Funct. 10:7892, gelling of an alginate-pectin sports drink in "
     "the stomach (some authors have an interest)"},
    {"mitchell-2006",
     "Mitchell H. (ed.) 2006, Sweeteners and Sugar Alternatives in Food Technology, Blackwell"},
    {"morris-2012",
     "Morris E.R., Nishinari K., Rinaudo M. 2012, Gelation of gellan: a review, Food Hydrocolloids "
     "28:373"},
    {"nielsen-2001",
     "Nielsen, Marr, Hvidt 2001, Carbohydr. Polym. 45:395 (shear modulus of the standard jelly, "
     "abstract)"},
    {"nist-hb44", "NIST Handbook 44, Appendix C, General tables of units of measurement"},
    {"nist-srd46",
     "Martell A.E., Smith R.M., Motekaitis R.J. 2004, NIST Critically Selected Stability Constants "
     "of Metal Complexes, SRD 46 v8.0, doi 10.18434/M32154"},
    {"noaa-gml-co2", "NOAA Global Monitoring Laboratory, Trends in atmospheric carbon dioxide"},
    {"padival-1979",
     "Padival R.A., Ranganna S., Manjrekar S.P. 1979, Mechanism of gel formation by low methoxyl "
     "pectins, J. Food Technol. 14:277"},
    {"peters-2011",
     "Peters H.P.F. et al. 2011, Dose-dependent suppression of hunger by a specific alginate in a "
     "low-viscosity drink formulation, Obesity 19:1171"},
    {"pitzer-1973",
     "Pitzer K.S., Mayorga G. 1973, Thermodynamics of electrolytes II, J. Phys. Chem. 77:2300"},
    {"plaschina-1978",
     "Plaschina I.G., Braudo E.E., Tolstoguzov V.B. 1978, Circular-dichroism studies of pectin "
     "solutions, Carbohydr. Res. 60:1"},
    {"schiweck-1991",
     "Schiweck H. et al. 1991, New developments in the use of sucrose as an industrial bulk "
     "chemical, in Lichtenthaler F.W. (ed.), Carbohydrates as Organic Raw Materials, VCH"},
    {"sm-1030e",
     "APHA, AWWA, WEF, Standard Methods for the Examination of Water and Wastewater, 1030 E and "
     "2320 B"},
    {"smidsrod-1972",
     "Smidsrod O., Haug A. 1972, strength of calcium alginate gels against guluronate and "
     "concentration (recalled, not seen)"},
    {"takata-1996",
     "Takata H. et al. 1996, Cyclization reaction catalyzed by branching enzyme, J. Bacteriol. "
     "178:1600 (highly branched cyclic dextrin)"},
    {"tako-1989",
     "Tako M., Sakae A. et al. 1989, rheology of low-acyl gellan with salts and acid (abstract)"},
    {"tang-1996",
     "Tang J., Tung M.A., Zeng Y. 1996, Compression strength and deformation of gellan gels formed "
     "with mono- and divalent cations, Carbohydr. Polym. 29:11"},
    {"thakur-1997",
     "Thakur B.R., Singh R.K., Handa A.K. 1997, Chemistry and uses of pectin: a review, Crit. Rev. "
     "Food Sci. Nutr. 37:47"},
    {"thickeners-2018",
     "Viscosity of xanthan and starch thickened liquids at 50 per s, Food Hydrocolloids 79:208 "
     "(2018), table 3, PMC5962271"},
    {"toft-1986",
     "Toft K., Grasdalen H., Smidsrod O. 1986, Synergistic gelation of alginates and pectins, ACS "
     "Symp. Ser. 310:117; Thom D. et al. 1982; Morris V.J., Chilvers G.R. 1984"},
    {"topuz-2012",
     "Topuz F. et al. 2012, Magnesium ions and alginate do form hydrogels, Soft Matter 8:4877"},
    {"trade-pectin-ph",
     "pH of pectin solutions as suppliers' data sheets and additive monographs state it: HM 1 % "
     "2.8 to 3.8, LM 2.5 % 4.5 to 5.0, amidated 1 % 4.0 to 5.0"},
    {"tsoga-2004",
     "Tsoga A. et al. 2004, Food Hydrocolloids 18:907 (HM pectin with sugars and polyols, "
     "abstract)"},
    {"usda-fdc", "USDA FoodData Central, SR Legacy, honey (minerals)"},
    {"usp-41", "United States Pharmacopeia, general chapter <41> Balances"},
    {"usp-nf-maltodextrin", "USP-NF monograph Maltodextrin (loss on drying at most 6 %)"},
    {"vkm-2017-potassium",
     "Norwegian Scientific Committee for Food Safety (VKM) 2017, Potassium: assessment of "
     "suggested "
     "maximum limits in food supplements, report 2017:17"},
    {"white-1962",
     "White J.W., Riethof M.L., Subers M.H., Kushnir I. 1962, Composition of American honeys, USDA "
     "Technical Bulletin 1261; as in Crane E. 1980, A Book of Honey, appendix 2"},
    {"whittaker-1997",
     "Whittaker L.E. et al. 1997, Carbohydr. Polym. 33:39 (gellan in sugar, abstract)"},
    {"who-hardness", "WHO 2011, Hardness in drinking-water, WHO/HSE/WSH/10.01/10"},
    {"who-sodium", "WHO 2012, Guideline: sodium intake for adults and children"},
    {"zhang-2007",
     "Zhang Z. et al. 2007, Lactonization and protonation of gluconic acid, J. Solution Chem. "
     "36:1187"},
};

}  // namespace

std::span<const Source> sources() {
  return bibliography;
}

const Source* find_source(std::string_view id) {
  const auto found = std::find_if(std::begin(bibliography), std::end(bibliography),
                                  [id](const Source& source) { return source.id == id; });
  return found == std::end(bibliography) ? nullptr : &*found;
}

std::string_view to_text(Standing standing) {
  switch (standing) {
    case Standing::confirmed:
      return "confirmed";
    case Standing::computed:
      return "computed";
    case Standing::from_memory:
      return "from memory";
    case Standing::judgement:
      return "judgement";
    case Standing::common_practice:
      return "common practice, no source";
  }
  return "";
}

}  // namespace gelwright
