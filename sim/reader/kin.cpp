#include "reader/kin.h"

#include "reader/cloud.h"

#include <Eigen/Cholesky>

#include <algorithm>
#include <cmath>

namespace cistern::reader {

using Index = Eigen::Index;

Kin::Kin(const Stories& stories, std::size_t main, std::vector<const Story*> centers, double width)
    : main_(main) {
    for (const Story* one : centers) centers_.push_back(*one);
    for (std::size_t c = 0; c < centers_.size(); ++c)
        for (const Event& event : centers_[c].events)
            kinds_[event.prior].having.push_back(static_cast<Index>(c));
    for (auto& [prior, found] : kinds_) {
        Kind& kind = found;
        const body::InsultKind& insult = *prior->kind;
        const auto count = static_cast<Index>(kind.having.size());
        const auto eventOf = [&](Index i) {
            const auto center = kind.having[static_cast<std::size_t>(i)];
            return *centers_[static_cast<std::size_t>(center)].find(insult);
        };
        kind.at.resize(stories.deviates(eventOf(0)).size(), count);
        for (Index i = 0; i < count; ++i) kind.at.col(i) = stories.deviates(eventOf(i));
        kind.root = kernelRoot(kind.at, std::vector<double>(kind.having.size(), 1), width);
        kind.at = kind.root.triangularView<Eigen::Lower>().solve(kind.at).eval();
        kind.logPeak = -kind.root.diagonal().array().log().sum();
    }
}

Story Kin::draw(const Stories& stories, std::size_t center, base::Chance& chance) const {
    Story story = stories.draw(main_, chance);
    for (Event& event : story.events) {
        const Event* near = centers_[center].find(*event.prior->kind);
        if (!near) continue;
        const Eigen::MatrixXd& root = kinds_.at(event.prior).root;
        Eigen::VectorXd moved(root.rows());
        for (double& one : moved) one = chance.normal();
        stories.set(event, stories.deviates(*near) + root.triangularView<Eigen::Lower>() * moved);
    }
    return story;
}

double Kin::share(const Stories& stories, const Story& story) const {
    Eigen::ArrayXd logs = Eigen::ArrayXd::Zero(static_cast<Index>(centers_.size()));
    for (const Event& event : story.events) {
        const auto found = kinds_.find(event.prior);
        if (found == kinds_.end()) continue;
        const Kind& kind = found->second;
        const Eigen::VectorXd deviates = stories.deviates(event);
        const Eigen::VectorXd at = kind.root.triangularView<Eigen::Lower>().solve(deviates);
        const Eigen::ArrayXd apart = (kind.at.colwise() - at).colwise().squaredNorm().transpose();
        const double before = kind.logPeak + deviates.squaredNorm() / 2;
        for (std::size_t i = 0; i < kind.having.size(); ++i)
            logs(kind.having[i]) += before - apart(static_cast<Index>(i)) / 2;
    }
    return logs.exp().mean();
}

} // namespace cistern::reader
