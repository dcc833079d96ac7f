#include "gelwright/data_tables.hpp"

#include "gelwright/batch.hpp"
#include "gelwright/bench.hpp"
#include "gelwright/carry.hpp"
#include "gelwright/compare.hpp"
#include "gelwright/elements.hpp"
#include "gelwright/equilibrium.hpp"
#include "gelwright/fit.hpp"
#include "gelwright/flag.hpp"
#include "gelwright/gel_forecast.hpp"
#include "gelwright/gel_kitchen.hpp"
#include "gelwright/gel_parameters.hpp"
#include "gelwright/goal.hpp"
#include "gelwright/gums.hpp"
#include "gelwright/ingredient.hpp"
#include "gelwright/label_readings.hpp"
#include "gelwright/making.hpp"
#include "gelwright/mend.hpp"
#include "gelwright/notebook.hpp"
#include "gelwright/nozzle.hpp"
#include "gelwright/procedure.hpp"
#include "gelwright/properties.hpp"
#include "gelwright/solubility.hpp"
#include "gelwright/species.hpp"
#include "gelwright/spread.hpp"
#include "gelwright/start.hpp"
#include "gelwright/usual.hpp"
#include "gelwright/water.hpp"
#include "gelwright/water_phase.hpp"
#include "gelwright/weighing.hpp"
#include "serving/complex_doubt.hpp"
#include "serving/ph_error.hpp"
#include "serving/portions.hpp"

namespace gelwright {

const std::vector<DataTable>& data_tables() {
  static const std::vector<DataTable> tables = {
      {"elements", elements_data()},
      {"species", species_data()},
      {"equilibrium", equilibrium_data()},
      {"properties", properties_data()},
      {"water", water_data()},
      {"water units", water_unit_data()},
      {"ingredients", ingredient_data()},
      {"gums", gum_data()},
      {"label readings", label_reading_data()},
      {"solubility", solubility_data()},
      {"gel parameters", gel::parameter_data()},
      {"gel shape", gel::gel_constant_data()},
      {"gel kitchen tests", gel::gel_kitchen_data()},
      {"gel of a recipe", gel_serving_data()},
      {"making", making_data()},
      {"nozzle", nozzle_data()},
      {"chemistry", water_phase_data()},
      {"pH error", ph_error_data()},
      {"complexes", complex_doubt_data()},
      {"weighing", weighing_data()},
      {"batch", batch_data()},
      {"vessels", detail::portion_data()},
      {"procedure", procedure_data()},
      {"carry", carry_data()},
      {"compare", compare_data()},
      {"mend", mend_data()},
      {"notebook", notebook_data()},
      {"start", start_data()},
      {"goal", goal_data()},
      {"flags", flag_data()},
      {"usual amounts", usual_data()},
      {"bench", bench_data()},
      {"fit", fit_data()},
      {"spread", spread_data()},
  };
  return tables;
}

}  // namespace gelwright
