package org.hoodkeeper.web.signin;

import static java.util.stream.Collectors.groupingBy;
import static java.util.stream.Collectors.mapping;
import static java.util.stream.Collectors.toSet;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.hoodkeeper.access.Accounts;
import org.hoodkeeper.access.Allowed;
import org.hoodkeeper.access.KnownAccount;
import org.hoodkeeper.access.RoleGrant;
import org.hoodkeeper.kernel.Role;
import org.hoodkeeper.kernel.SiteId;
import org.hoodkeeper.programme.Site;
import org.hoodkeeper.programme.SiteRegister;
import org.springframework.security.core.annotation.AuthenticationPrincipal;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;

/** Leads everybody to the page that answers their question, over the choice of a site where there are several. */
@Controller
class HomeController {

    /** A site to choose, and where it leads. */
    public record Door(String code, String name, String href) {}

    private final Accounts accounts;
    private final SiteRegister sites;

    HomeController(Accounts accounts, SiteRegister sites) {
        this.accounts = accounts;
        this.sites = sites;
    }

    @Allowed(self = true)
    @GetMapping("/")
    String home(@AuthenticationPrincipal KnownAccount account) {
        List<Door> doors = doors(account);
        return "redirect:" + (doors.size() == 1 ? doors.get(0).href() : "/sites");
    }

    @Allowed(self = true)
    @GetMapping("/sites")
    String choose(@AuthenticationPrincipal KnownAccount account, Model model) {
        model.addAttribute("doors", doors(account));
        return "signin/sites";
    }

    private List<Door> doors(KnownAccount account) {
        Map<SiteId, Set<Role>> roles = accounts.rolesOf(account.id()).stream()
                .collect(groupingBy(RoleGrant::site, mapping(RoleGrant::role, toSet())));
        Map<String, Door> byName = new TreeMap<>();
        roles.forEach((id, held) -> {
            Site site = sites.get(id);
            byName.put(site.name() + " " + site.code(), new Door(site.code(), site.name(), FirstPage.of(site, held)));
        });
        return List.copyOf(byName.values());
    }
}
